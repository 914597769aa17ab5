using Lastoff.Core.Languages;

namespace Lastoff.Core.Learning;

/// <summary>A map learned from strips.</summary>
/// <param name="Yaml">The map file, to be read, checked and edited like any other. What is in doubt is said in comments beside it.</param>
/// <param name="Waits">Everything that waits for something, with how sure that is; in the order of the file.</param>
/// <param name="Rates">How often what went wrong with which thing.</param>
public sealed record LearnedMap(string Yaml, IReadOnlyList<Wait> Waits, IReadOnlyList<TroubleRate> Rates)
{
    public IEnumerable<Wait> InDoubt => Waits.Where(wait => wait.IsInDoubt);

    /// <summary>The orders that a word is worth asking for, each once: what the recordings contradict each other about, and what one alone shows and only costs work.</summary>
    public IReadOnlyList<Wait> Asked { get; init; } = [];

    /// <summary>How many orders may be chance and are kept without a question.</summary>
    public int KeptInDoubt => InDoubt.Select(wait => (wait.First, wait.Then)).Distinct().Except(Asked.Select(wait => (wait.First, wait.Then))).Count();

    /// <summary>Learns a map from strips of one job on one sort of machine.</summary>
    /// <param name="name">The map's name: lower-case letters, digits and hyphens.</param>
    /// <param name="title">Which machine it describes.</param>
    /// <param name="said">What a person said of single orders; outranks the strips. Of two words on one pair the later counts.</param>
    /// <param name="contradicted">Names of what one recording says was in the way of the other, and another that it was not.</param>
    /// <param name="tongue">The language of what the map calls things by that nobody recorded; null for English.</param>
    /// <returns>The map, or the sentence that says what in the strips or in what was said cannot be.</returns>
    public static Answer<LearnedMap> From(string name, string title, IReadOnlyList<Strip> strips, IReadOnlyList<Said> said, Tongue? tongue = null, IReadOnlyList<(string First, string Then)>? contradicted = null)
    {
        if (Fault(strips) is { } fault)
        {
            return Answer.None<LearnedMap>(fault);
        }

        var seen = new Sightings(strips);
        if (said.Select(s => Fault(s, seen)).FirstOrDefault(sentence => sentence is not null) is { } sentence)
        {
            return Answer.None<LearnedMap>(sentence);
        }

        var order = new LearnedOrder(seen, said);
        if (order.Circle() is var (first, then))
        {
            return Answer.None<LearnedMap>($"By what was said “{first.Name}” and “{then.Name}” each wait for the other, be it through others, so nothing could begin; take one of the words about them back.");
        }

        var text = new LearnedMapText(name, title, seen, order, tongue ?? Tongue.English);
        var map = new LearnedMap(text.Write(), text.Waits, TroubleRate.Of(seen));
        return map with
        {
            Asked = [.. (contradicted ?? []).Select(pair => order.Contradicted(pair.First, pair.Then)).OfType<Wait>().Concat(map.Waits.Where(wait => wait.IsAsked)).DistinctBy(wait => (wait.First, wait.Then))],
        };
    }

    private static string? Fault(IReadOnlyList<Strip> strips)
    {
        if (!strips.Any(strip => strip.Removals.Any(removal => removal.Sort == Sort.Part)))
        {
            return "No part came off in any of these strips, and a map needs at least one; record a strip in which one does.";
        }

        return (from strip in strips
                from entry in strip.Removals.Index()
                let what = Fault(entry.Item)
                where what is not null
                select $"Strip “{strip.Name}”, removal {entry.Index + 1}: {what}").FirstOrDefault();
    }

    private static string? Fault(Removal removal) =>
        LearnedMapText.Clean(removal.Name).Length == 0 || LearnedMapText.Clean(removal.Tool.Name).Length == 0 ? "it, or its tool, has no name; give it the one a mechanic would use."
        : removal.Count is < 1 or > 1000 ? $"“{removal.Name}” is there {removal.Count} times; a count lies between 1 and 1000."
        : removal.Minutes is { } minutes && !(minutes is >= 0 and <= 10_000) ? $"“{removal.Name}” took {minutes} minutes; they lie between 0 and 10,000."
        : removal.Trouble?.ExtraMinutes is { } extra && !(extra is >= 0 and <= 10_000) ? $"the trouble with “{removal.Name}” took {extra} minutes; they lie between 0 and 10,000."
        : null;

    /// <summary>What about a word cannot be, or null.</summary>
    internal static string? Fault(Said said, Sightings seen)
    {
        foreach (var name in new[] { said.First, said.Then })
        {
            if (!seen.Events.Any(e => e.Name == name))
            {
                return $"Nothing called “{name}” came off in these strips; say it by the name it was recorded under.";
            }
        }

        return said.InTheWay && !seen.Events.Any(first => first.Name == said.First && seen.Events.Any(then => then.Name == said.Then && first.CanHoldUp(then)))
            ? $"“{said.First}” cannot hold up “{said.Then}”: parts are in the way of things, joints hold parts, and supplies are made safe for joints; name the part or joint between the two."
            : null;
    }
}
