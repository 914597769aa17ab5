using System.Globalization;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Takes out of a clause what is understood wherever it stands: sizes, drives, torque, volume, tray, tool, flags, side.</summary>
internal static class Attributes
{
    public static Reading Take(Clause clause, string line, PhraseBook book)
    {
        var reading = TakeTool(clause, line, new Reading());
        foreach (var (at, term) in clause.Terms.Index())
        {
            if (!term.IsUsed && !IsParting(clause.Terms, at, line, book, reading.Tool) && !IsLength(clause.Terms, at, line, book) && !IsOfName(clause.Terms, at) && Take(reading, term) is { } more)
            {
                reading = more;
                term.IsUsed = true;
                if (term.Is(WordKind.Across) && IsWord(clause.Terms, at + 1, WordKind.Keys, line, book))
                {
                    reading = reading with { Drive = reading.Drive ?? new Drive(DriveShape.InnerHex, null) };
                    clause.Terms[at + 1].IsUsed = true;
                }
            }
        }

        return reading;
    }

    public static Reading Flagged(Reading reading, string flag) => flag switch
    {
        "captive" => reading with { Captive = true },
        "left_hand" => reading with { LeftHand = true },
        "one_time" => reading with { OneTime = true },
        "broken" => reading with { Broken = true },
        "seized" => reading with { Seized = true },
        "sealed" => reading with { Sealed = true },
        _ => reading,
    };

    /// <summary>The reading with the term's meaning; null when it has none here, or has no room left.</summary>
    private static Reading? Take(Reading reading, Term term) => term.Kind switch
    {
        WordKind.Across when reading.Across is null => reading with { Across = term.Across },
        WordKind.Thread when reading.Thread is null => reading with { Thread = term.Thread, Length = reading.Length ?? term.Length },
        WordKind.Length when reading.Length is null => reading with { Length = term.Length },
        WordKind.Drive => WithDrive(reading, term.Drive),
        WordKind.Torque when reading.Torque is null && Words<TorqueUnit>.TryRead(term.Unit!, out var unit) => WithTorque(reading, term.Number, unit),
        WordKind.Volume when reading.Volume_L is null => WithVolume(reading, term),
        WordKind.Tray when reading.Tray is null => reading with { Tray = term.Value },
        WordKind.Flags => Flagged(reading, term.Value),
        WordKind.Stuck => reading with { Seized = true },
        WordKind.Places when reading.At is null && Words<Position>.TryRead(term.Value, out var at) => reading with { At = at },
        WordKind.OwnSide when reading.Question is null => reading with { Question = new Question(Doubt.WhichSide) },
        _ => null,
    };

    /// <summary>“Coupling split”, “taper split with a fork”: parted, and not broken.</summary>
    private static bool IsParting(IReadOnlyList<Term> terms, int at, string line, PhraseBook book, string? tool) => at > 0 && terms[at].Is(WordKind.Flags)
        && book.Of(terms[at].Lower(line), WordKind.Verbs) is { Value: "undone" } && (tool is not null || book.Of(terms[at - 1].Lower(line).Split(' ')[^1], WordKind.Splits) is not null);

    // “25 mm long”; a long bolt of 13 mm is no length.
    private static bool IsLength(IReadOnlyList<Term> terms, int at, string line, PhraseBook book) => terms[at].Is(WordKind.Across)
        && IsWord(terms, at + 1, WordKind.Lengths, line, book)
        && !(at + 2 < terms.Count && terms[at + 2].Is(WordKind.Joints, WordKind.NamedJoints));

    private static bool IsWord(IReadOnlyList<Term> terms, int at, WordKind kind, string line, PhraseBook book) =>
        at < terms.Count && book.Of(terms[at].Text(line).ToLowerInvariant(), kind) is not null;

    // “Nearside drive shaft” is what it is called.
    private static bool IsOfName(IReadOnlyList<Term> terms, int at) => terms[at].Is(WordKind.Places) && at + 1 < terms.Count
        && (terms[at + 1].Is(WordKind.Word, WordKind.Parts) || at + 2 < terms.Count && terms[at + 1].Is(WordKind.Sides, WordKind.JointModifiers) && terms[at + 2].Is(WordKind.Word, WordKind.Parts));

    private static Reading? WithTorque(Reading reading, double number, TorqueUnit unit) =>
        Torque.TryParse(string.Create(CultureInfo.InvariantCulture, $"{number:R}{unit.Sign()}"), out var torque) ? reading with { Torque = torque } : null;

    // “Allen” and then “6 mm hex key” say it twice; a number says more than a shape.
    private static Reading? WithDrive(Reading reading, Drive? drive) => reading.Drive is not { } known ? reading with { Drive = drive }
        : known == drive || drive is { Number: null } ? reading
        : known.Number is null ? reading with { Drive = drive }
        : null;

    // A quart is an American measure wherever it is still said; gallons and pints are not.
    private static Reading WithVolume(Reading reading, Term term) => term.Unit switch
    {
        "litre" => reading with { Volume_L = term.Number },
        "millilitre" => reading with { Volume_L = Litres(term.Number, "mL") },
        "quart" => reading with { Volume_L = Litres(term.Number, "US qt") },
        "us_gallon" => reading with { Volume_L = Litres(term.Number, "US gal") },
        "us_pint" => reading with { Volume_L = Litres(term.Number, "US pt") },
        "imperial_gallon" => reading with { Volume_L = Litres(term.Number, "imp gal") },
        "imperial_pint" => reading with { Volume_L = Litres(term.Number, "imp pt") },
        "gallon" => reading with { Question = new Question(Doubt.WhichGallon, term.Number) { Unit = "gal" } },
        _ => reading with { Question = new Question(Doubt.WhichGallon, term.Number) { Unit = "pt" } },
    };

    private static double? Litres(double number, string unit) =>
        Volume.TryParseLitres(string.Create(CultureInfo.InvariantCulture, $"{number:R} {unit}"), out var litres) ? litres : null;

    /// <summary>“With a long swivel”, “used heat”, or a clause that is nothing but a tool.</summary>
    private static Reading TakeTool(Clause clause, string line, Reading reading)
    {
        var terms = clause.Terms;
        for (var last = 0; last < terms.Count; last++)
        {
            if (!terms[last].Is(WordKind.Tools) || last + 1 < terms.Count && terms[last + 1].Is(WordKind.Word, WordKind.Parts, WordKind.Tools, WordKind.Joints, WordKind.NamedJoints))
            {
                continue;
            }

            var first = FirstOfTool(terms, last);
            if (first is null)
            {
                continue;
            }

            for (var i = first.Value; i <= last || i < terms.Count && terms[i].Is(WordKind.With) && i == terms.Count - 1; i++)
            {
                terms[i].IsUsed = true;
            }

            while (terms[first.Value].Is(WordKind.With, WordKind.Article, WordKind.Fillers))
            {
                first++;
            }

            return reading with { Tool = line[terms[first.Value].Start..terms[last].End] };
        }

        return reading;
    }

    private const int LongestTool = 6;

    // “Impact gun on the wheel nuts”.
    private static bool LeadsToJoint(IReadOnlyList<Term> terms, int at)
    {
        while (++at < terms.Count && terms[at].Is(WordKind.Word, WordKind.Parts, WordKind.JointModifiers, WordKind.Article, WordKind.Fillers, WordKind.Number, WordKind.Across, WordKind.Sides))
        {
        }

        return at < terms.Count && terms[at].Is(WordKind.Joints, WordKind.NamedJoints);
    }

    private static int? FirstOfTool(IReadOnlyList<Term> terms, int last)
    {
        for (var at = last; at >= 0 && at > last - LongestTool; at--)
        {
            if (terms[at].Is(WordKind.With))
            {
                return at;
            }

            if (terms[at].Is(WordKind.Deeds, WordKind.DeedsOf) && last == terms.Count - 1 && at < last && at > 0)
            {
                // “Filter off strap wrench”, “glow plugs out 10 mm deep socket”; “bolts off the bar”, “bolts off lamp bar” name a part.
                return terms.Skip(at + 1).All(term => term.Is(WordKind.Tools, WordKind.Across, WordKind.Number, WordKind.Drive)) && (last > at + 1 || terms[last].Value.Contains(' ', StringComparison.Ordinal)) ? at + 1 : null;
            }

            if (!terms[at].Is(WordKind.Tools, WordKind.Word, WordKind.JointModifiers, WordKind.Article, WordKind.Fillers, WordKind.Across, WordKind.Drive, WordKind.Number))
            {
                return null;
            }
        }

        return last < LongestTool && (last == terms.Count - 1 || last == terms.Count - 2 && terms[^1].Is(WordKind.With) || terms[last + 1].Is(WordKind.From) && (terms[0].Is(WordKind.Across) || LeadsToJoint(terms, last + 1))) ? 0 : null;
    }
}
