namespace Lastoff.Core.Recording;

/// <summary>“Housing bolts want 45 Nm”: how tight they go back, and nothing that was done.</summary>
internal static class TorqueLeads
{
    /// <summary>Whether a joint is said to have a torque by a word that elsewhere tells of what was not done; the word is understood then.</summary>
    public static bool IsOf(Clause clause, string line, PhraseBook book)
    {
        var terms = clause.Terms;
        var at = Enumerable.Range(0, terms.Count).FirstOrDefault(at => at > 0 && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Torque) && book.Has(terms[at].Lower(line), WordKind.TorqueLeads), -1);
        return at > 0 && clause.Has(WordKind.Joints, WordKind.NamedJoints) && !clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs)
            && (terms[at].IsUsed = true);
    }
}
