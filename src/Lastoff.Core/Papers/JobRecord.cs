using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>Everything that was done, in order, with readings, torques, renewals, photos, and the seal of the ledger it was made from.</summary>
public static class JobRecord
{
    private const string HowToCheck =
        "Each device seals every entry and carries the hash of the one before. “lastoff verify LEDGER” proves that none was cut, changed or reordered, and “lastoff verify LEDGER --json” names the last entry of each device with its SHA-256: they must be these.";

    public static Paper Of(PaperSource source)
    {
        var standing = source.Standing;
        var written = WrittenEntries.Of(source.Job);
        return JobHead.Paper(
            source, PaperKind.Record, "Record of the job", "For the workshop's file",
            new Section("",
            [
                new Facts([.. CaseBlocks.Machine(standing), JobHead.WhatWasWrong(standing), JobHead.Cause(standing), JobHead.Agreed(standing), JobHead.Goal(standing), JobHead.WhereItStands(standing), Balance(source)]),
                .. JobHead.Override(standing),
            ]),
            new Section("How the cause was found", CaseBlocks.Evidence(standing)),
            new Section("Still open", new Bullets([.. OpenItems.Of(standing).Select(item => (Said)item.Sentence)])),
            new Section("Readings", [ReadingTable.Of(standing)]),
            new Section("Filled", Fillings.Table(standing)),
            new Section("Tightened", [.. TightenedBlocks.Of(standing, written)]),
            new Section("New parts and sundries", NewThings.Table(source.Job)),
            new Section("Price, and the yes to it", standing.Prices.Count == 0 ? [] : [PriceWords.Yeses(source), .. PriceWords.Change(standing)]),
            new Section("Against the map, or beyond what was agreed", new Bullets([.. standing.AgainstTheMap.Concat(standing.BeyondAgreed).Concat(standing.Unread).Select(sentence => (Said)sentence)])),
            new Section("What was done, in order", [.. Days(standing, written)]),
            new Section("What it took", [.. TimeBlocks.Of(source)]),
            new Section("For the next time", new Bullets([.. standing.File.Lessons.Select(lesson => CaseBlocks.Lesson(standing.Net, lesson.Learned))])),
            CaseBlocks.ReChecks(standing),
            new Section("Photos", new Pictures([.. PhotosOf(source)])),
            new Section("Seal", new Seal([.. Ends(source.Job)], HowToCheck)));
    }

    private static Fact Balance(PaperSource source)
    {
        var rows = OutAndHome.Of(source.Job);
        var (went, home) = (rows.Count, rows.Count(row => row.Home is not null));
        var standing = source.Standing;
        return new("Out and home", new Said(
            $"{went} went out, {home} came home. Covers: {standing.CoversPutIn} in, {standing.CoversTakenOut} out again.",
            Datum.Of("out", (decimal)went), Datum.Of("home", (decimal)home), Datum.Of("covers_put_in", (decimal)standing.CoversPutIn), Datum.Of("covers_taken_out", (decimal)standing.CoversTakenOut)));
    }

    /// <summary>A table for each day. An entry goes under the day of the clock that wrote it, where it counts.</summary>
    private static IEnumerable<Table> Days(Standing standing, IReadOnlyList<Written> written)
    {
        for (var first = 0; first < written.Count;)
        {
            var day = PaperTime.Day(written[first].Entry.At);
            var ofTheDay = written.Skip(first).TakeWhile(line => PaperTime.Day(line.Entry.At) == day).ToList();
            yield return new Table(day, [new("At", 1.1), new("What", 9.4), new("By", 3)], [.. ofTheDay.Select(line => LineOf(standing.Net, line, written))]);
            first += ofTheDay.Count;
        }
    }

    private static Row LineOf(OperationNet net, Written line, IReadOnlyList<Written> written)
    {
        var said = line.Act is TakenBack back && written.FirstOrDefault(other => other.Entry.Id == back.Entry)?.Act is { } gone ? TakenBackWords(net, back, gone)
            : line.Act is { } act ? DoneWords.Of(net, act)
            : $"An entry of a kind that is not known here: {line.Entry.Kind}";
        return new Row(
        [
            new Said(PaperTime.Hour(line.Entry.At), Datum.Of("at", line.Entry.At)),
            said with { Data = [Datum.Of("entry", line.Entry.Id.ToString()), Datum.Of("kind", line.Entry.Kind), .. said.Data] },
            Said.Own(line.Entry.By),
        ],
        line.IsTakenBack ? RowKind.Struck : RowKind.Plain);
    }

    /// <summary>Whoever reads the record need not look for what an entry took back.</summary>
    private static Said TakenBackWords(OperationNet net, TakenBack back, Act gone) =>
        DoneWords.Of(net, back) is var said ? said with { Text = $"{said.Text}\n{DoneWords.Of(net, gone).Text}" } : said;

    private static IEnumerable<Picture> PhotosOf(PaperSource source) =>
        from photo in Photos.Of(source.Job)
        let about = photo.Taken.About is { } id ? NamesOf.Thing(source.Standing.Net, id) : "The job"
        select new Picture(new Said($"{about}\n{PaperTime.Of(photo.Entry.At)}, {photo.Entry.By}", Datum.Of("at", photo.Entry.At)), photo.Taken.Photo, source.Photo(photo.Taken.Thumbnail));

    private static IEnumerable<ChainEnd> Ends(Job job) =>
        from device in job.Entries.GroupBy(entry => entry.Device)
        orderby device.Key
        let last = device.MaxBy(entry => entry.Seq)!
        select new ChainEnd(device.Key, last.Seq, last.Id, last.Hash);
}
