namespace Lastoff.Core.Planning;

/// <summary>Writes down, while a way of stays is gone through again, in which order its landmarks are done and with what.</summary>
internal sealed class StayOrder
{
    private readonly List<(int Tool, int Place, List<int> Landmarks)> _uses = [];
    private readonly Dictionary<int, int> _pending = [];
    private int _current;

    /// <summary>What follows is done with this tool at this place.</summary>
    public void TakeUp(int tool, int place)
    {
        _current = _uses.Count;
        _uses.Add((tool, place, []));
    }

    public void Add(int landmark) => _uses[_current].Landmarks.Add(landmark);

    /// <summary>A use is paid for that may come here or later.</summary>
    public void Leave(StayUse use)
    {
        TakeUp(use.Tool, use.Place);
        _pending[use.Number] = _current;
    }

    /// <summary>What follows is done by a use that was left, where it was left.</summary>
    public void ComeBackTo(StayUse use) => _current = _pending[use.Number];

    public IEnumerable<(int Landmark, int Tool, int Place)> Steps() => _uses.SelectMany(use => use.Landmarks.Select(landmark => (landmark, use.Tool, use.Place)));
}
