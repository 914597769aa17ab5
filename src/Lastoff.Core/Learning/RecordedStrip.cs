using Lastoff.Core.Estimating;
using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>A strip as a ledger tells it: what came off in which order, how long it took, and which joint was said to belong to which part.</summary>
/// <param name="Belongs">Names of a joint and of the part its line gave it.</param>
/// <param name="Said">What its lines say was, or was not, in the way of what.</param>
public sealed record RecordedStrip(Strip Strip, IReadOnlyList<(string Joint, string Part)> Belongs, IReadOnlyList<Said> Said)
{
    /// <summary>The spread of single pieces of work before anything was timed: the standard deviation of the logarithm. Set down, no source.</summary>
    private const double WorkSpread = 0.45;

    /// <param name="name">What the recording is called, for sentences about it.</param>
    /// <param name="entries">The entries of one job, in any order. Where the job has a map, its identifiers are the names.</param>
    public static RecordedStrip Of(string name, IEnumerable<Entry> entries)
    {
        var ordered = EntryOrder.Of(entries);
        var told = ToldMove.Of(ordered);
        var took = Took(told);
        var removals = new List<Removal>();
        var belongs = new List<(string, string)>();
        var names = new Dictionary<string, string>();
        var things = new List<(ToldMove Move, string Name)>();
        var map = JobOpened.In(ordered) is { HasMap: false } ? RecordedMap.Of(ordered) : null;
        var places = map is null ? null : ToldLate.InOrder(ordered).Index().ToDictionary(one => one.Item.Entry.Id, one => one.Index);
        List<ToldMove> @out = [.. told.OrderBy(one => places?[one.Entry.Id] ?? 0).Where(one => !one.Moved.Move.IsBack())];
        var renewals = new RecordedRenewals(map, @out);
        var broken = BrokenOne.Among(@out);
        var ran = RanOut.Among(@out);
        var plugs = DrainPlug.Among([.. @out.Where(one => !ran.ContainsKey(one))]);
        foreach (var one in @out.Where(one => !broken.ContainsKey(one) && !ran.ContainsKey(one) && !renewals.IsBetween(one)))
        {
            if (names.ContainsKey(KeyOf(one.Moved)))
            {
                continue;
            }

            var called = one.Moved.Move == Move.JointUndone ? Unlike(one, [.. names.Values]) : one.Name;
            names.Add(KeyOf(one.Moved), called);
            things.Add((one, called));
            var back = told.FirstOrDefault(other => other.Moved.Move == one.Moved.Move.Operation().Back() && other.Moved.Target == one.Moved.Target);
            List<ToldMove> broke = [.. broken.Where(pair => pair.Value == one).Select(pair => pair.Key)];
            var removal = RemovalOf(one, called, MinutesOf(one), MinutesOf(back));
            removal = removal with
            {
                LetsOut = plugs.TryGetValue(one, out var fluid) ? fluid.Name : null,
                RanOut = [.. ran.Where(pair => pair.Value == one).Select(pair => RanOut.Of(pair.Key.Reading!))],
                Count = Math.Max(removal.Count + broke.Count, back?.Moved.Count ?? 0),
                Trouble = removal.Trouble ?? broke.Select(other => new Trouble(TroubleKind.Broke, Extra(other, MinutesOf(other)))).FirstOrDefault(),
                Told = [.. broke.Select(other => other.Line!.Text)],
                Cautions = LastingCautions.Of(one, kind => removals.Exists(r => r.Kind == OperationKind.MakeSafe && r.Supply == kind)),
                // How much it was may have been told some lines later.
                Amount_L = @out.Where(other => KeyOf(other.Moved) == KeyOf(one.Moved)).Append(back).Max(other => other?.Moved.Amount_L),
                Torque = one.Reading?.Torque ?? map?.Joints.FirstOrDefault(joint => joint.Id == one.Moved.Target)?.Torque ?? (back?.Moved.Torque_Nm is { } tightened ? Torque.FromNewtonMetres(tightened) : null),
            };
            if (removal.Kind != OperationKind.Undo || one.Part is not { } part)
            {
                // The lead of a spark plug is pulled before anything else, whenever it was told of.
                removals.Insert(removal.Kind == OperationKind.MakeSafe && one.Moved.Move == Move.JointUndone ? 0 : removals.Count, removal);
                continue;
            }

            belongs.Add((called, part));
            // Told of after its part: it was undone before.
            var at = removals.FindIndex(r => r.Kind == OperationKind.Off && r.Name == part);
            removals.Insert(at < 0 ? removals.Count : at, removal);
        }

        var lines = ToldLines.Of(ordered, things);
        var lessons = Lesson.In(Guid.Empty, ordered).ToLookup(lesson => lesson.Learned.About is { } about ? NameOf(renewals.StandsFor(about)) : null, lesson => lesson.Learned.Text);
        var strip = new Strip(name, [.. removals.Select(removal => WithLines(removal, [.. lines[removal.Name]]) with { Lessons = [.. lessons[removal.Name]] })])
        {
            Lessons = [.. lessons[null]],
            Openings = Openings(map, target => NameOf(renewals.StandsFor(target))),
            Renewals = renewals.Of(ordered, NameOf),
            Pace = took.Count == 0 ? null : took.Values.Sum() / took.Keys.Sum(one => one.TradeMinutes),
            Wanted = [.. (map?.Renewals ?? []).Where(renewal => renewal.For == Renewal.Alone).Select(renewal => renewal.Name)],
        };
        return new RecordedStrip(strip, belongs, new SaidOnTheWay(ordered, things).Said());

        string? NameOf(string target) => things.FirstOrDefault(thing => thing.Move.Moved.Target == target).Name;
        double? MinutesOf(ToldMove? one) => one is not null && took.TryGetValue(one, out var minutes) ? minutes : null;
    }

    /// <summary>What the lines say of joints and parts, for the learner: a joint holds the part it was told of and no other, where that came off.</summary>
    public static IReadOnlyList<Said> Holding(IReadOnlyList<RecordedStrip> strips)
    {
        var parts = strips.SelectMany(s => s.Strip.Removals).Where(r => r.Kind is OperationKind.Off or OperationKind.Aside).Select(r => r.Name).ToHashSet();
        // Of a part that never came off, it was in the way of what did.
        var told = strips.SelectMany(s => s.Belongs).Where(pair => parts.Contains(pair.Part)).ToLookup(pair => pair.Joint, pair => pair.Part);
        var of = told.SelectMany(joint => joint.Select(part => (Joint: joint.Key, Part: part))).Concat(UntoldHosts.Of(strips, told)).ToLookup(pair => pair.Joint, pair => pair.Part);
        return
        [
            .. from joint in of
               from part in parts
               let isOf = joint.Contains(part)
               // Laid aside with the joint made, it was not held by it.
               where !isOf || strips.All(s => IsBefore(s.Strip, joint.Key, part))
               select new Said(joint.Key, part, isOf),
        ];
    }

    /// <summary>The openings of a job without a map, on what came off by name.</summary>
    private static IReadOnlyList<SeenOpening> Openings(Map? map, Func<string, string?> nameOf) =>
    [
        .. from opening in map?.Openings ?? []
           let bare = nameOf(opening.On)
           where bare is not null
           select new SeenOpening(opening.Name, bare, opening.Cover),
    ];

    /// <summary>What lines tell besides, and what by them went wrong with one of a set.</summary>
    private static Removal WithLines(Removal removal, IReadOnlyList<ToldLine> lines) => removal with
    {
        Count = removal.Count + lines.Sum(line => line.Besides),
        Told = [.. removal.Told.Concat(lines.Select(line => line.Text)).Distinct()],
        Trouble = removal.Trouble ?? lines.Select(line => line.Trouble).OfType<TroubleKind>().Select(kind => new Trouble(kind, null)).FirstOrDefault(),
    };

    private static bool IsBefore(Strip strip, string joint, string part)
    {
        var names = strip.Removals.Select(r => r.Name).ToList();
        var (first, then) = (names.IndexOf(joint), names.IndexOf(part));
        return first < 0 || then < 0 || first < then;
    }

    private static string KeyOf(Moved moved) => $"{moved.Move} {moved.Target}";

    /// <summary>A second set of the same name gets its size, or else a number.</summary>
    private static string Unlike(ToldMove joint, IReadOnlyList<string> taken)
    {
        var sized = joint.Reading?.Across is { } size ? $"{joint.Name} {RecordedThing.Said(size)}" : joint.Name;
        var ofLength = joint.Reading?.Length is { } length ? $"{sized}, {RecordedThing.Said(length)} long" : sized;
        return taken.Contains(joint.Name)
            ? new[] { sized, ofLength }.Concat(Enumerable.Range(2, taken.Count).Select(number => $"{joint.Name} {number}")).First(name => !taken.Contains(name))
            : joint.Name;
    }

    private static Removal RemovalOf(ToldMove one, string name, double? minutes, double? back)
    {
        var reading = one.Reading ?? new Reading();
        // No engine starts by itself without it: it is off before all else, and goes on after it.
        var isSpark = one.Moved.Move == Move.JointUndone && LineReader.IsOfSpark(reading);
        var kind = isSpark ? OperationKind.MakeSafe : one.Moved.Move.Operation();
        var isTrouble = reading.Broken || reading.Seized;
        return new Removal(kind, name)
        {
            Joint = one.Joint,
            Supply = isSpark ? SupplyKind.Heat : RecordedThing.SupplyOf(reading with { Fluid = reading.Fluid ?? name }),
            Count = reading.Count is >= 1 and <= Moved.MostCounted ? reading.Count.Value : 1,
            Tool = kind == OperationKind.Undo && one.Reading is not null ? RecordedTool.Of(reading)
                // A part needs a tool only where one was told.
                : kind == OperationKind.Off && reading.Tool is not null ? new Tool(reading.Tool, null) : Tool.Hand,
            At = reading.At ?? Position.Above,
            // What went wrong is told apart from what the work takes.
            Minutes = isTrouble ? null : minutes,
            BackMinutes = back,
            Thread = reading.Thread?.ToString(),
            Tray = one.Moved.Tray,
            Captive = reading.Captive || reading.Deed == Deed.Loose,
            OneTime = reading.OneTime,
            Clean = reading.Sealed || kind == OperationKind.Undo && one.Joint == JointKind.Face,
            Drained = reading.Deed == Deed.Drained || kind == OperationKind.MakeSafe && one.Moved.Amount_L is not null,
            Trouble = isTrouble ? new Trouble(reading.Broken ? TroubleKind.Broke : TroubleKind.Seized, Extra(one, minutes)) : null,
        };
    }

    /// <summary>What it took on top of the work; null when that was not timed, or no more.</summary>
    private static double? Extra(ToldMove one, double? minutes) => minutes - one.TradeMinutes is > 0 and var more ? more : null;

    /// <summary>The minutes each thing took, from the time marks of whoever did it. A line about several things shares its time among them as the trade would.</summary>
    private static Dictionary<ToldMove, double> Took(IReadOnlyList<ToldMove> told)
    {
        var took = new Dictionary<ToldMove, double>();
        foreach (var person in told.GroupBy(one => one.Entry.By))
        {
            List<(Mark Mark, List<ToldMove> Things)> marks = [.. person.GroupBy(one => one.Entry.Id).Select(entry =>
            {
                List<ToldMove> things = [.. entry];
                return (new Mark(new Work(things.Sum(one => one.TradeMinutes), new Dictionary<Trait, string>()), things[0].Entry.At), things);
            })];
            foreach (var stretch in Marks.Cut([.. marks.Select(mark => mark.Mark)], WorkSpread).Where(stretch => stretch.IsTimed))
            {
                var things = marks.First(mark => ReferenceEquals(mark.Mark.Work, stretch.Work)).Things;
                foreach (var one in things)
                {
                    took[one] = stretch.Minutes * one.TradeMinutes / stretch.Work.TradeMinutes;
                }
            }
        }

        return took;
    }
}
