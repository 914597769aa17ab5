using Lastoff.Core.Ledger;

namespace Lastoff.Tests.Ledger;

public class EntryIdTests
{
    // RFC 9562, appendix A.6: the example of a version 7 UUID, made at 2022-02-22 14:22:22 -05:00.
    [Fact]
    public void The_example_of_the_standard_is_made_and_read()
    {
        var example = Guid.Parse("017F22E2-79B0-7CC3-98C4-DC0C0C07398F");
        byte[] randomness = [0x0C, 0xC3, 0x18, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F];
        var at = new DateTimeOffset(2022, 2, 22, 14, 22, 22, TimeSpan.FromHours(-5));
        Assert.Equal(example, EntryId.Next(at, null, randomness));
        Assert.Equal(at.ToUnixTimeMilliseconds(), EntryId.Time(example));
        Assert.True(EntryId.IsVersion7(example));
    }

    [Fact]
    public void An_identifier_never_runs_behind_one_already_seen()
    {
        var ahead = EntryId.Next(new DateTimeOffset(2030, 1, 1, 0, 0, 0, TimeSpan.Zero), null, new byte[10]);
        var next = EntryId.Next(new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero), ahead, new byte[10]);
        Assert.True(string.CompareOrdinal(next.ToString(), ahead.ToString()) > 0);
    }

    [Fact]
    public void Too_little_randomness_is_a_mistake_of_the_caller() =>
        Assert.Throws<ArgumentException>(() => EntryId.Next(DateTimeOffset.UnixEpoch, null, new byte[9]));
}
