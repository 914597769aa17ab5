using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class LedgerFileTests
{
    private static readonly Bay Bay = Worked();
    private static readonly string Text = LedgerFile.Write(EntryOrder.Of(Bay.Everything));

    [Fact]
    public void A_ledger_reads_back_as_it_was_written()
    {
        var reading = LedgerFile.Read(Text, "job.ledger.jsonl");
        Assert.Null(reading.Fault);
        Assert.Equal(Text, LedgerFile.Write(reading.Entries));
        Assert.Equal(Describe.Everything(Fold.Of(Bay.Net, Bay.Everything)), Describe.Everything(Fold.Of(Bay.Net, reading.Entries)));
    }

    [Fact]
    public void Any_one_changed_character_is_noticed() =>
        Gen.Select(Gen.Int[0, Text.Length - 2], Gen.Char[' ', '~']).Where(change => Text[change.Item1] != change.Item2).Sample((at, character) =>
        {
            var reading = LedgerFile.Read(Text[..at] + character + Text[(at + 1)..], "job.ledger.jsonl");
            Assert.StartsWith("job.ledger.jsonl, line ", reading.Fault);
        }, iter: 3000);

    [Fact]
    public void A_cut_last_line_is_named_and_what_stands_before_it_is_kept() =>
        Gen.Int[2, LastLine.Length - 1].Sample(cut =>
        {
            var reading = LedgerFile.Read(Text[..^cut], "job.ledger.jsonl");
            Assert.StartsWith($"job.ledger.jsonl, line {Bay.Everything.Count}: this entry cannot be trusted, because", reading.Fault);
            Assert.Equal(Bay.Everything.Count - 1, reading.Entries.Count);
        }, iter: 300);

    [Fact]
    public void A_line_that_is_missing_from_the_middle_is_named() =>
        Gen.Int[0, Bay.Everything.Count - 1].Sample(gone =>
        {
            var entries = EntryOrder.Of(Bay.Everything);
            var next = entries.FirstOrDefault(e => e.Device == entries[gone].Device && e.Seq == entries[gone].Seq + 1);
            var fault = LedgerFile.Read(LedgerFile.Write(entries.Where((_, i) => i != gone)), "job.ledger.jsonl").Fault;
            Assert.True(next is null || fault!.Contains($"entry {next.Seq} of device {next.Device} ({next.Id})"), fault);
        }, iter: 100);

    [Fact]
    public void Two_lines_of_a_device_that_change_places_are_named()
    {
        var entries = EntryOrder.Of(Bay.Everything).ToList();
        var mine = entries.Where(e => e.Device == "device-0").ToList();
        var (first, second) = (entries.IndexOf(mine[2]), entries.IndexOf(mine[3]));
        (entries[first], entries[second]) = (entries[second], entries[first]);
        var fault = LedgerFile.Read(LedgerFile.Write(entries), "job.ledger.jsonl").Fault;
        Assert.Contains("entry 4 of device device-0", fault);
    }

    [Fact]
    public void A_note_with_any_character_survives()
    {
        var bay = new Bay(Bay.Net, [Bay.Net.Map.Parts[^1].Id], TimeSpan.Zero);
        const string text = "left-hand thread \u2028 \u0085 “quoted” \\ 12 N·m 🔧 \u200fعربي\r\n";
        Assert.Null(bay.Do(0, new Noted(text)));
        var reading = LedgerFile.Read(LedgerFile.Write(bay.Everything), "job.ledger.jsonl");
        Assert.Equal(new Noted(text), ActKinds.Read(reading.Entries[^1], out _));
    }

    [Fact]
    public void A_photo_changes_no_standing_can_be_taken_after_the_handover_and_taken_back_and_survives()
    {
        var bay = new Bay(Bay.Net, [Bay.Net.Map.Parts[^1].Id], TimeSpan.Zero);
        var taken = new PhotoTaken(new string('a', 64), new string('b', 64), Bay.Net.Map.Parts[0].Id);
        var before = OpenItems.Of(bay.On(0).Standing);
        Assert.Null(bay.Do(0, taken));
        Assert.Equal(before, OpenItems.Of(bay.On(0).Standing));
        Assert.Equal(taken, ActKinds.Read(LedgerFile.Read(LedgerFile.Write(bay.Everything), "job.ledger.jsonl").Entries[^1], out _));
        Assert.Equal(taken, Assert.Single(Photos.Of(bay.On(0))).Taken);
        Assert.Null(bay.Do(0, new TakenBack(Photos.Of(bay.On(0))[0].Entry.Id)));
        Assert.Empty(Photos.Of(bay.On(0)));
        Assert.Null(bay.Do(0, new HandedOver("The owner", new Override("Tester", "To look"))));
        Assert.Null(bay.Do(0, taken with { About = null }));
        Assert.Null(Assert.Single(Photos.Of(bay.On(0))).Taken.About);
    }

    [Theory]
    [InlineData("../../lastoff.db")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("")]
    public void A_photo_that_is_named_by_anything_but_a_hash_is_kept_but_not_understood(string name)
    {
        var bay = new Bay(Bay.Net, [Bay.Net.Map.Parts[^1].Id], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new PhotoTaken(name, new string('b', 64))));
        Assert.Empty(Photos.Of(bay.On(0)));
        Assert.Contains("photo is not a SHA-256", Assert.Single(bay.On(0).Standing.Unread));
    }

    [Fact]
    public void An_entry_of_a_kind_from_another_version_is_kept_and_reported()
    {
        var entry = Bay.On(0).Entries[^1];
        var foreign = entry with { Kind = "weighed", Id = EntryId.Next(entry.At, entry.Id, new byte[10]) };
        var standing = Fold.Of(Bay.Net, Bay.On(0).Entries.Append(foreign));
        Assert.Contains(standing.Unread, sentence => sentence.Contains(foreign.Id.ToString()) && sentence.Contains("weighed"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("\n\n")]
    [InlineData("not JSON")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"id":"x"}""")]
    [InlineData("""{"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","device":"a","seq":1.5,"at":"2026-01-01T00:00:00Z","by":"","kind":"noted","data":{},"prev":null}""")]
    [InlineData("""{"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","device":"a","seq":1,"at":"yesterday","by":"","kind":"noted","data":{},"prev":null}""")]
    [InlineData("""{"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","device":"\ud800","seq":1,"at":"2026-01-01T00:00:00Z","by":"","kind":"noted","data":{},"prev":null}""")]
    public void What_is_not_a_ledger_gets_one_sentence(string text)
    {
        var fault = LedgerFile.Read(text, "job.ledger.jsonl").Fault;
        Assert.StartsWith("job.ledger.jsonl, line 1: ", fault);
        Assert.DoesNotContain('\n', fault!);
    }

    private static string LastLine => Text.Split('\n')[^2];

    private static Bay Worked()
    {
        var map = RandomMaps.Build(new Choices([.. Enumerable.Range(0, 400).Select(i => (byte)(i * 37))]), 20);
        var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero, TimeSpan.FromDays(-2));
        foreach (var operation in bay.Net.Operations)
        {
            bay.Do(0, new Moved(operation.Kind.Out(), operation.Target));
            bay.Pass(0, 1);
            bay.Do(1, new Noted($"Saw to {operation.Name}"));
            bay.Pass(1, 0);
        }

        return bay;
    }
}
