namespace Lastoff.Core.Planning;

/// <summary>Writes down, while a way of stays is gone through again, in which order its landmarks are done and with what.</summary>
internal sealed class StayOrder
{
    private readonly List<(int Tool, int Place, List<int> Landmarks)> _uses = [];
    private readonly Dictionary<int, int> _pending = [];

    /// <summary>What follows is done with this tool at this place.</summary>
    public void TakeUp(int tool, int place) => _uses.Add((tool, place, []));

    public void Add(int landmark) => _uses[^1].Landmarks.Add(landmark);

    /// <summary>A use is paid for that may come here or later.</summary>
    public void Leave(int use, int tool, int place)
    {
        _pending[use] = _uses.Count;
        TakeUp(tool, place);
    }

    /// <summary>A use that was left comes where it was left.</summary>
    public void Settle(int use, IEnumerable<int> landmarks) => _uses[_pending[use]].Landmarks.AddRange(landmarks);

    public IEnumerable<(int Landmark, int Tool, int Place)> Steps() => _uses.SelectMany(use => use.Landmarks.Select(landmark => (landmark, use.Tool, use.Place)));
}
