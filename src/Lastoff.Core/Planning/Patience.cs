namespace Lastoff.Core.Planning;

/// <summary>How long a search may go on besides its states: until it is enough, and it gives what it has, or until it is called off.</summary>
internal readonly record struct Patience(CancellationToken Enough, CancellationToken Cancel)
{
    public bool IsOver => Enough.IsCancellationRequested;

    /// <summary>A search that ends only at its states, or when it is called off.</summary>
    public static implicit operator Patience(CancellationToken cancel) => new(CancellationToken.None, cancel);
}
