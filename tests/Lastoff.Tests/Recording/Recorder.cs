using System.Buffers.Binary;
using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>Devices that record one job without a map, each knowing only what it wrote and what reached it.</summary>
public sealed class Recorder
{
    private readonly Job[] _devices;
    private DateTimeOffset _now = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private int _written;

    public Recorder(int devices = 1)
    {
        _devices = [.. Enumerable.Range(0, devices).Select(_ => Job.Recorded([]))];
        Assert.Null(Do(new JobOpened("", "An invented machine", "It leaks", "Not known yet", [], [])));
        for (var device = 1; device < devices; device++)
        {
            Pass(0, device);
        }
    }

    public Job Job => _devices[0];

    /// <summary>The way back from here.</summary>
    public IReadOnlyList<PlanStep> Back => Planner.Make(Job.Standing, new Goal([], []), PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!.Back;

    public Job On(int device) => _devices[device];

    /// <summary>The joint of a name.</summary>
    public string Joint(string name) => Job.Net.Map.Joints.Single(joint => joint.Name == name).Id;

    /// <summary>Says a line on a device, some minutes after the last.</summary>
    public Recorder Say(string line, int device = 0, double minutes = 2, string language = "en")
    {
        List<Reading> before = [.. CountedEntry.AllOf(_devices[device].Entries).Where(counted => !counted.IsTakenBack).Select(counted => counted.Act).OfType<LineRecorded>().Reverse().SelectMany(told => told.Readings.Reverse())];
        var read = LineReader.Read(line, language, before);
        Assert.Null(Do(new LineRecorded(line, read.Readings), device, minutes));
        return this;
    }

    public Refusal? Do(Act act, int device = 0, double minutes = 0.1)
    {
        _written++;
        _now = _now.AddMinutes(minutes);
        var randomness = new byte[10];
        BinaryPrimitives.WriteInt32BigEndian(randomness.AsSpan(6), _written);
        var decision = _devices[device].Decide(act, new Pen($"device-{device}", $"Person {device}", _now, randomness));
        if (decision.Entry is { } entry)
        {
            _devices[device] = _devices[device].With(entry);
        }

        return decision.Refusal;
    }

    public void Pass(int from, int to) => _devices[to] = _devices[to].With(_devices[from].Entries);

    /// <summary>Takes the planner's way back, step by step, through every guard.</summary>
    public bool GoesHome()
    {
        for (var steps = 0; Job.Standing.Done.Count > 0 && steps < 300; steps++)
        {
            GoHomeOneStep();
        }

        return Job.Standing.Done.Count == 0;
    }

    public void GoHomeOneStep()
    {
        var plan = Planner.Make(Job.Standing, GoalLeft.Of(Job.Standing), PlanLimits.AtOnce).Plan!;
        var next = NextStep.Of(Job.Standing, plan)!;
        var act = next.Kind == StepKind.Prove ? new ProofRecorded(next.Target, Verdict.Good, "dry") : next.ToAct(Job.Standing);
        if (Do(act) is { } refusal)
        {
            Assert.Fail($"{next.Kind} {next.Target}: {refusal.Sentence}");
        }
    }
}
