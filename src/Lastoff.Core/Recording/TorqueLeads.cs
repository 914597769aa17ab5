namespace Lastoff.Core.Recording;

/// <summary>“Housing bolts want 45 Nm”: how tight they go back, and nothing that was done.</summary>
internal static class TorqueLeads
{
    /// <summary>The word by which a joint is said to have a torque, and which elsewhere tells of what was not done; null where there is none, or another such word beside it (“don't need 45 Nm”).</summary>
    public static Term? Of(Clause clause, string line, PhraseBook book)
    {
        var terms = clause.Terms;
        var at = Enumerable.Range(0, terms.Count).FirstOrDefault(at => at > 0 && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Torque) && book.Has(terms[at].Lower(line), WordKind.TorqueLeads), -1);
        return at > 0 && clause.Has(WordKind.Joints, WordKind.NamedJoints) && !clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs)
            && !terms.Any(term => term != terms[at] && (term.Is(WordKind.NotDone) || book.Has(term.Lower(line), WordKind.Nots))) ? terms[at] : null;
    }
}
