using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Program;

namespace Lastoff.BrowserTests;

/// <summary>A job of the light van that a colleague has brought so far on another device.</summary>
internal static class HalfWay
{
    public const double Drained_L = 5.7;

    /// <summary>Takes the job up on this phone, done up to about that step.</summary>
    public static async Task TakeUp(Bay bay, StepKind kind, string target)
    {
        var job = await Open(bay, kind, target);
        await bay.ComeIn();
        await bay.Page.Locator($"a[href='job/{job}']").ClickAsync();
    }

    /// <summary>Takes the job up on this phone, loses the network, and comes to that step.</summary>
    public static async Task ComeTo(Bay bay, StepKind kind, string target)
    {
        await TakeUp(bay, kind, target);
        await bay.SetOffline(true);
        // This phone's own plan from here may do other things first.
        while (await bay.Asked() is var asked && asked != (kind.ToString(), target))
        {
            await bay.DoIt(asked!.Value);
        }
    }

    /// <summary>Puts the job on the server, done up to the step whose turn it is to take up that target again on the way back.</summary>
    private static async Task<Guid> Open(Bay bay, StepKind kind, string target)
    {
        var map = MapReader.Read(await File.ReadAllTextAsync(LastoffProgram.Demo("light-van.map.yaml"), TestContext.Current.CancellationToken), "light-van").Map!;
        var net = OperationNet.From(map);
        var job = Job.From(net, []);
        Record(new JobOpened(map.Name, "Invented van half way", "It drips", "The transfer pipe", ["transfer-pipe"], []));
        Record(new Agreed("The owner", "in person", "Go on"));
        var plan = Planner.Make(job.Standing, GoalLeft.Of(job.Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        while (NextStep.Of(job.Standing, plan) is { } step && (step.Kind, step.Target) != (kind, target))
        {
            Record(step.Kind == StepKind.Prove ? new ProofRecorded(step.Target, Verdict.Good, "As it should be")
                : step.Kind == StepKind.MakeSafe && step.Target == "coolant" ? step.ToAct(Drained_L)
                : step.ToAct(job.Standing));
        }

        var id = job.Entries[0].Id;
        var lines = new StringContent(string.Join('\n', job.Entries.Select(entry => entry.Line)));
        (await bay.Server.Client.PostAsync($"/api/jobs/{id}/entries", lines, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();
        return id;

        void Record(Act act) => job = job.With(job.Decide(act, new Pen("device-of-a-colleague", "Colleague", DateTimeOffset.UtcNow, Guid.NewGuid().ToByteArray()[..10])).Entry!);
    }
}
