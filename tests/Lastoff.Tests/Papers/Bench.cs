using System.Buffers.Binary;
using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Papers;

/// <summary>A job to make papers of: the invented sprayer's diaphragm, with everything on record that a paper can say.</summary>
public sealed class Bench
{
    public const string Map = "orchard-sprayer-pump";
    public const string PhotoHash = "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa";
    public const string ThumbnailHash = "bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb";

    public static OperationNet Net { get; } = OperationNet.From(Demo.Map(Map));

    private static readonly Plan Plan = Planner.Make(Net, Goal.Renewing("upper-diaphragm"), Net.Nothing, PlanLimits.Quick).Plan!;

    public static WrenchUsed Wrench { get; } = new("Invented wrench 12", new DateOnly(2026, 9, 30), 38.5);

    public static Evidence Evidence { get; } = new(
        "pressure steps", Verdict.Good, 1.25, 1.1, 1.4, "MPa", new Dictionary<string, double> { ["volume_L"] = 5.7 }, "t_s,p_kPa_abs\n0,1350\n600,1350");

    private int _written;

    private Bench(string machine, string complaint) =>
        Do(new JobOpened(Map, machine, complaint, "The upper diaphragm is torn.", ["upper-diaphragm"], []));

    public Job Job { get; private set; } = Job.From(Net, []);

    /// <summary>Opened, agreed, and nothing done yet.</summary>
    public static Bench Opened(string machine = "An invented sprayer", string complaint = "The oil turned milky")
    {
        var bench = new Bench(machine, complaint);
        bench.Do(new Agreed("The invented owner", "by telephone", "Renew the upper diaphragm and the oil."));
        return bench;
    }

    /// <summary>Half way: all is off, the fasteners are in trays, the openings are covered.</summary>
    public static Bench Stripped()
    {
        var bench = Opened();
        var tray = 0;
        foreach (var step in Plan.Out)
        {
            var act = step.ToAct();
            bench.Do(act is Moved { Move: Move.JointUndone } moved && Trays.TakeFrom(Net.Joints[moved.Target])
                ? moved with { Tray = $"{++tray}", Count = Net.Joints[moved.Target].Count }
                : act);
        }

        bench.Do(new PhotoTaken(PhotoHash, ThumbnailHash, "upper-diaphragm"));
        bench.Do(new Noted("A flake of rubber lay in the crankcase; fished out.", "upper-diaphragm"));
        bench.Do(new Noted("Said in error"));
        bench.Do(new TakenBack(bench.Job.Entries[^1].Id));
        return bench;
    }

    /// <summary>Through to the last proof, by two people.</summary>
    /// <param name="changes">How often the oil is changed once more.</param>
    public static Bench Proved(int changes = 0)
    {
        var bench = Stripped();
        while (NextStep.Of(bench.Job.Standing, Plan) is { } step)
        {
            while (step.Kind == StepKind.Make && PassesMade.AtHand(bench.Job.Standing, step.Target) is { } pass)
            {
                bench.Do(pass.Torque is null ? pass.Whole() : pass.Whole(TorqueUnit.FootPound, Wrench));
            }

            bench.Do(step.Kind switch
            {
                StepKind.Prove => new ProofRecorded(step.Target, Verdict.Good, "As it should be") { Evidence = step.Target == "pressure-steps" ? Evidence : null },
                StepKind.Restore when step.Target == "pump-oil" => new Moved(Move.SupplyRestored, step.Target, Amount_L: 1.15) { Poured = new Poured("SAE 30"), ChangesLeft = changes > 0 ? changes-- : null },
                _ when step.ToAct() is Moved { Move: Move.JointMade } made && Trays.TakeFrom(Net.Joints[made.Target]) => made with { Count = Net.Joints[made.Target].Count },
                _ => step.ToAct(),
            }, step.Kind is StepKind.Prove or StepKind.ReLook or StepKind.LastLook ? 1 : 0);
        }

        return bench;
    }

    public static Bench HandedOver()
    {
        var bench = Proved();
        bench.Do(new HandedOver("The invented owner", null));
        return bench;
    }

    /// <summary>Records what no guard let through: as when two devices met later.</summary>
    public void DoAllTheSame(Act act)
    {
        var last = Job.LastOf("device-0")!;
        Job = Job.With(EntryLine.Write(act, EntryId.Next(last.At, Job.Entries.Max(entry => entry.Id), new byte[10]), "device-0", last.At, "Invented Mechanic", last));
    }

    /// <summary>Records the act on one of two devices, each of one person; everything either writes the other has at once.</summary>
    public void Do(Act act, int device = 0)
    {
        var randomness = new byte[10];
        BinaryPrimitives.WriteInt32BigEndian(randomness.AsSpan(6), ++_written);
        var at = new DateTimeOffset(2026, 3, 2, 23, 20, 0, TimeSpan.FromHours(1)).AddMinutes(2 * _written);
        var decision = Job.Decide(act, new Pen($"device-{device}", device == 0 ? "Invented Mechanic" : "Invented Colleague", at, randomness));
        Assert.Null(decision.Refusal);
        Job = Job.With(decision.Entry!);
    }
}
