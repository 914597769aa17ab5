namespace Lastoff.Core.Ledger;

/// <summary>What one entry said of a thing, with what its device had seen then.</summary>
internal sealed record Said(Entry Entry, string Says, Sight Sight);

/// <summary>
/// Two people who say differently of one thing, neither having seen the other's entry. The later entry counts as any does, but a person is asked:
/// the order of two such entries is chance.
/// </summary>
internal static class Contradictions
{
    /// <summary>Counts what the act says of its thing, and asks where somebody says otherwise.</summary>
    /// <remarks>Of each thing the last words are kept: those that no later word about it had seen.</remarks>
    public static void Count(Standing standing, Entry entry, Act act)
    {
        if (Claim.Of(act) is not { } claim)
        {
            return;
        }

        var sight = standing.Sights.GetValueOrDefault(entry.Device, Sight.Unsaid);
        var last = standing.LastWords.GetValueOrDefault(claim.About, []);
        List<Said> unseen = [.. last.Where(said => said.Entry.Device != entry.Device && !sight.Has(said.Entry) && !said.Sight.Has(entry))];
        foreach (var other in unseen.Where(said => said.Says != claim.Says))
        {
            standing.Asked.Add(new Question(entry.Id, entry.By, Sentence(claim.Name(standing.Net), other, entry.By, claim.Says)) { Other = other.Entry });
        }

        standing.LastWords[claim.About] = [.. unseen, new Said(entry, claim.Says, sight)];
    }

    /// <summary>Whoever says how it is answers a contradiction only if both sides of it had reached them.</summary>
    public static bool IsSettledBy(Standing standing, Question question, Entry settled) =>
        question.Other is not { } other || other.Device == settled.Device || standing.Sights.GetValueOrDefault(settled.Device, Sight.Unsaid).Has(other);

    private static string Sentence(string name, Said one, string by, string says) =>
        $"{name}: {one.Entry.By} says {one.Says}, {by} says {says}, and neither had seen the other's entry. Look, and say how it is; if it is not as it stands here, record that too.";
}
