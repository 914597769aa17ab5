namespace Lastoff.Core.Planning;

/// <summary>The pending uses to place before a landmark can be done: those it waits for whatever else is placed, and each by turns of some that would do the same.</summary>
internal struct StayBehind(UInt128 needed, UInt128 either)
{
    private UInt128 _left = either;
    private bool _isOver;

    /// <summary>The next uses that can be placed together, or none any more.</summary>
    public UInt128 Next()
    {
        if (_isOver)
        {
            return 0;
        }

        var one = _left & (UInt128.Zero - _left);
        _left &= ~one;
        _isOver = _left == 0;
        return needed | one;
    }
}
