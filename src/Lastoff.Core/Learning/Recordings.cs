using Lastoff.Core.Estimating;
using Lastoff.Core.Languages;

namespace Lastoff.Core.Learning;

/// <summary>Recorded strips of one job, from which a map is learned.</summary>
public sealed record Recordings(IReadOnlyList<RecordedStrip> Strips)
{
    /// <summary>Every two names that may mean one thing, the most alike first.</summary>
    public IReadOnlyList<SameName> SameNames => SameName.Suggest([.. Strips.Select(s => s.Strip)]);

    /// <summary>The recordings with one name in place of another; null when nothing has the name to give up.</summary>
    public Recordings? Merged(string giveUp, string keep)
    {
        var same = new Dictionary<string, string> { [giveUp] = keep };
        string Kept(string name) => same.GetValueOrDefault(name, name);
        return Knows(giveUp)
            ? new Recordings([.. SameName.Merge([.. Strips.Select(s => s.Strip)], same).Zip(Strips, (strip, had) => new RecordedStrip(
                strip, [.. had.Belongs.Select(b => (Kept(b.Joint), Kept(b.Part)))], [.. had.Said.Select(s => s with { First = Kept(s.First), Then = Kept(s.Then) })]))])
            : null;
    }

    /// <summary>Whether anything came off by this name, or a joint was told to belong to it.</summary>
    public bool Knows(string name) => Strips.Any(s => s.Strip.Removals.Any(r => r.Name == name) || s.Belongs.Any(b => b.Part == name));

    /// <summary>The map, with what a person says of single orders now outranking what was said while recording, that what the lines tell of joints and parts, and that the strips.</summary>
    /// <inheritdoc cref="LearnedMap.From"/>
    public Answer<LearnedMap> Learn(string name, string title, IReadOnlyList<Said> said, Tongue? tongue = null)
    {
        var strips = DrainPlug.Folded(Strips);
        said = DrainPlug.Folded(said, Strips);
        IReadOnlyList<Said> told = [.. RecordedStrip.Holding(strips), .. HiddenDrain.NotInTheWay(strips)];
        return LearnedMap.From(name, title, Unhurried([.. strips.Select(s => s.Strip)]), [.. told, .. RecordedWords.ThatHold(strips, told, said), .. said], tongue, [.. RecordedWords.Contradicted(strips)]);
    }

    /// <summary>A recording that went too fast to be believed was tapped or told in one go: its order counts, and its times do not.</summary>
    private static IReadOnlyList<Strip> Unhurried(IReadOnlyList<Strip> strips)
    {
        List<Strip> timed = [.. strips.Where(strip => strip.Pace is not null)];
        var hasty = HastyJobs.AreHasty([.. timed.Select(strip => strip.Pace!.Value)]);
        return [.. strips.Select(strip => strip.Pace is not null && hasty[timed.IndexOf(strip)]
            ? strip with { Removals = [.. strip.Removals.Select(removal => removal with { Minutes = null, BackMinutes = null, Trouble = removal.Trouble is { } trouble ? trouble with { ExtraMinutes = null } : null })] }
            : strip)];
    }
}
