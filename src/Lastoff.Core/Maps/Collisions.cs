namespace Lastoff.Core.Maps;

/// <summary>The places where two people are in each other's way, so that only one of them can work at a time.</summary>
/// <remarks>A place has room for one. The lift is either up or down, so nobody works beside the machine while somebody works under it.</remarks>
public sealed class Collisions(IEnumerable<PlacePair> stated)
{
    private readonly HashSet<PlacePair> _stated = [.. stated];

    public bool Between(Position a, Position b) =>
        a == b || a == Position.Below != (b == Position.Below) || _stated.Contains(new PlacePair(a, b)) || _stated.Contains(new PlacePair(b, a));
}

/// <summary>Two places that the map says are too near to each other for two people.</summary>
public readonly record struct PlacePair(Position A, Position B);
