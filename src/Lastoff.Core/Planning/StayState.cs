namespace Lastoff.Core.Planning;

/// <summary>Where the search stands: what is done, which uses are paid for but not yet placed, and where the mechanic is.</summary>
/// <remarks>
/// A pending use is one that does all that is left for its tool at its place. It may come at the time it was paid for, or later as the first or
/// last of a stay, where it lets its tool be carried over. Nothing that needs its work is done before it is placed.
/// </remarks>
internal struct StayState
{
    public UInt128 Pending;
    public long Cost;
    public int Place;
    /// <summary>The tool that was carried here and must be carried on at once; 0 for none.</summary>
    public int Carried;
    public int Parent;
    /// <summary>Which of the moves from its parent leads here: they are always found in the same order, and take too much room to keep.</summary>
    public int Move;
    public bool IsOutdone;
    /// <summary>The next state with the same work, done or paid for, at the same place.</summary>
    public int Alike;
}

/// <summary>One move from a state to the next: pending uses placed first, a tool taken up or carried, a place gone to.</summary>
/// <param name="Placed">Pending uses that come where they were left, before the move.</param>
/// <param name="Tool">The tool that is used, or carried over; 0 for none.</param>
/// <param name="To">The place that is gone to, or -1.</param>
/// <param name="PlacedThere">Pending uses that come where they were left, before the work at the new place.</param>
/// <param name="CarriesOn">Whether the tool is carried on at once.</param>
internal readonly record struct StayMove(UInt128 Placed, int Tool, int To, UInt128 PlacedThere, bool CarriesOn);
