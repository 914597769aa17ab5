using System.Buffers.Binary;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Ledger;

/// <summary>Devices that work on one job, each knowing only what it wrote and what reached it.</summary>
public sealed class Bay
{
    private readonly List<Job> _devices;
    private readonly TimeSpan[] _skew;
    private int _written;

    /// <param name="net">The map of the job.</param>
    /// <param name="goals">The parts the job is opened for.</param>
    /// <param name="skews">How wrong each device's clock is.</param>
    public Bay(OperationNet net, IReadOnlyList<string> goals, params TimeSpan[] skews)
    {
        Net = net;
        _skew = skews;
        _devices = [.. skews.Select(_ => Job.From(net, []))];
        Assert.Null(Do(0, new JobOpened(net.Map.Name, "An invented machine", "It leaks", "A seal", goals, [])));
        for (var device = 1; device < skews.Length; device++)
        {
            Pass(0, device);
        }
    }

    public OperationNet Net { get; }

    public Job On(int device) => _devices[device];

    public IReadOnlyList<Entry> Everything => [.. _devices.SelectMany(d => d.Entries).DistinctBy(e => e.Id)];

    /// <summary>Records the act on a device, or says why it is refused.</summary>
    public Refusal? Do(int device, Act act)
    {
        _written++;
        var randomness = new byte[10];
        BinaryPrimitives.WriteInt32BigEndian(randomness.AsSpan(6), _written);
        var now = new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero).AddSeconds(_written) + _skew[device];
        var decision = _devices[device].Decide(act, new Pen($"device-{device}", $"Person {device}", now, randomness));
        if (decision.Entry is { } entry)
        {
            _devices[device] = _devices[device].With(entry);
        }

        return decision.Refusal;
    }

    /// <summary>Does a step of a plan: a joint's passes first, a proof with a good reading.</summary>
    public Refusal? Do(int device, PlanStep step)
    {
        while (step.Kind == StepKind.Make && PassesMade.AtHand(On(device).Standing, step.Target) is { } pass)
        {
            if (Do(device, pass.Whole()) is { } refusal)
            {
                return refusal;
            }
        }

        return Do(device, step.Kind == StepKind.Prove ? new ProofRecorded(step.Target, Verdict.Good, "as it should be") : step.ToAct());
    }

    /// <summary>Everything one device knows reaches another.</summary>
    public void Pass(int from, int to) => _devices[to] = _devices[to].With(_devices[from].Entries);

    /// <summary>Every act that could be tried, sensible or not.</summary>
    public static List<Act> Everyone(OperationNet net) =>
    [
        .. net.Operations.Select(o => new Moved(o.Kind.Out(), o.Target)),
        .. net.Operations.Select(o => new Moved(o.Kind.Back(), o.Target)),
        .. net.Map.Joints.Select(j => new JointStuck(j.Id, 12, false, "rusted")),
        .. net.Map.Joints.Where((_, i) => i % 2 == 0).Select(j => new JointStuck(j.Id, 0, true, "", net.Operations[net.Find(OperationKind.Undo, j.Id)].Ways[0].Tool.ToString(), net.Operations[net.Find(OperationKind.Undo, j.Id)].Ways[0].At)),
        .. net.Map.Openings.Select(o => new OpeningCovered(o.Id)),
        .. net.Map.Openings.Select(o => new OpeningUncovered(o.Id)),
        .. net.Map.Joints.Select(j => new FaceCleaned(j.Id)),
        .. net.Map.Joints.Select(j => new LastLookTaken(j.Id)),
        .. net.Map.Joints.Select(j => new ReLookTaken(j.Id)),
        .. net.Map.Joints.SelectMany(j => j.Passes.SelectMany((p, i) => new[] { null, "1", "2" }.Select(bolt => new JointTightened(j.Id, i + 1, bolt, p.At(j.Torque)?.NewtonMetres, p.Angle_deg)))),
        .. net.RenewalsFor.Values.SelectMany(r => r).Select(r => new RenewalFitted(r.Id)),
        .. net.Map.Parts.Select(p => new RenewalFitted(net.NewPart(p.Id).Id)),
        .. net.Map.Proofs.Select(p => new ProofRecorded(p.Id, Verdict.Good, "as it should be")),
        .. net.Map.Proofs.SelectMany(p => Judged(p.Id)),
        .. net.Map.Supplies.Select(s => new Moved(Move.SupplyRestored, s.Id, Amount_L: 3) { Poured = new Poured("OAT", 50, 40, 45, 2) }),
        new EvidenceFound("The seal leaks", EvidenceBy.Dye, "It glows round the seal", Speaks.For),
        new CauseNamed("The seal is torn", "Renew it"),
        new MachineIdentified("11111111111111111", "INV 1", "A dent on the left", ["oil"]) { Odometer_km = 120_345, Hours_h = 812.5 },
        new ItemTold("Seal", ItemState.Ordered, "at the counter") { Awaited = new DateOnly(2031, 5, 30), HoldsUpTheStart = true },
        new ItemTold("Seal", ItemState.Here, ""),
        new AppointmentSet("It comes in", new DateTimeOffset(2031, 5, 29, 8, 0, 0, TimeSpan.FromHours(2))),
        new ReCheckSet("Look for drips", new DateOnly(2031, 6, 14)),
        .. net.Map.Joints.Take(1).SelectMany(j => net.Map.Proofs.Take(1).Select(p => new BackIn(j.Id, p.Id))),
        new ThingLost("M6 washer", "bell housing"),
        new WorkTold("New seal in the shaft", net.Map.Parts[0].Id),
        new WorkTold("New wiper blade", null),
        new WorkDone("New seal in the shaft"),
        new WorkDone("New wiper blade"),
        .. net.Map.Joints.Take(2).Select(j => new Moved(Move.JointMade, j.Id) { Torque_Nm = 20, With = new WrenchUsed("Bay wrench", new DateOnly(2031, 5, 30), 18) }),
        new ThingLost("One of the screws", "Guard") { IsMissing = true },
        .. net.Map.Joints.Take(1).Select(j => new Learned("The long socket reaches the last bolt", j.Id)),
        new Agreed("The owner", "in person", "Renew the seal"),
        new HandedOver("The owner", null),
    ];

    /// <summary>A proof judged from readings, taken as they say, and said otherwise with a reason and without.</summary>
    public static IEnumerable<ProofRecorded> Judged(string proof)
    {
        foreach (var says in Enum.GetValues<Verdict>())
        {
            var evidence = new Evidence("vacuum hold", says, 1e-4, -1e-4, 3e-4, "Pa·m3/s", new Dictionary<string, double> { ["volume_L"] = 6 }, "t_s,p_kPa_abs\n0,12\n600,12");
            yield return new ProofRecorded(proof, says, "as read") { Evidence = evidence };
            yield return new ProofRecorded(proof, Verdict.Good, "as read") { Evidence = evidence };
            yield return new ProofRecorded(proof, Verdict.Good, "as read") { Evidence = evidence, Overruled = "the gauge was leaking" };
        }
    }
}
