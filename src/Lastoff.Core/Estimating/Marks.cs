namespace Lastoff.Core.Estimating;

/// <summary>A moment at which a piece of work was recorded as done.</summary>
/// <param name="Work">What was done; its trade minutes are the guess before anything was measured.</param>
/// <param name="At">When it was recorded.</param>
public sealed record Mark(Work Work, DateTimeOffset At);

/// <summary>What became of the time between two marks.</summary>
/// <param name="Minutes">From the mark before to this one.</param>
/// <param name="IsPause">Too long to have been work alone: not counted.</param>
public sealed record Stretch(Work Work, double Minutes, bool IsPause)
{
    /// <summary>So short that the work was done before and only written down here: that says nothing of how long it takes.</summary>
    public bool IsAfterwards => Minutes < Marks.LeastShare * Work.TradeMinutes;

    /// <summary>Whether it says how long the work takes.</summary>
    public bool IsTimed => !IsPause && !IsAfterwards;
}

/// <summary>Minutes per piece of work from the marks of one person on one job.</summary>
public static class Marks
{
    /// <summary>Two marks nearer than this were written down together afterwards and say nothing of either. Common practice, no source.</summary>
    private const double LeastMinutes = 0.1;

    /// <summary>Nobody does a piece of work in less than this part of what the trade says. Set down, no source: where pieces of work scatter by 0.45 in the logarithm about what the trade says, two in a million are that quick.</summary>
    internal const double LeastShare = 1.0 / 8;

    /// <summary>A stretch this much longer than any work of its sort should be may hold a pause; less is not worth a doubt. Set down, no source.</summary>
    private const double LeastPauseMinutes = 10;

    /// <summary>Standard normal quantile at 0.999.</summary>
    private const double OneInAThousand = 3.090232306167813;

    /// <summary>Cuts the time of one person at their marks. The first mark only says where the second piece of work begins.</summary>
    /// <remarks>
    /// A stretch holds a pause when it is longer than one piece of such work in a thousand would be and by ten minutes longer than the trade says. It is then
    /// not counted at all: how much of it was work nobody knows.
    /// </remarks>
    /// <param name="spread">The spread of single pieces of work: the standard deviation of the logarithm.</param>
    public static IReadOnlyList<Stretch> Cut(IReadOnlyList<Mark> marks, double spread)
    {
        List<Mark> inTurn = [.. marks.OrderBy(mark => mark.At)];
        return
        [
            .. from pair in inTurn.Zip(inTurn.Skip(1))
               let minutes = (pair.Second.At - pair.First.At).TotalMinutes
               where minutes >= LeastMinutes
               let trade = pair.Second.Work.TradeMinutes
               select new Stretch(pair.Second.Work, minutes, minutes > trade * Math.Exp(OneInAThousand * spread) && minutes > trade + LeastPauseMinutes),
        ];
    }
}
