namespace Lastoff.App.PlanReading;

/// <summary>Something the server is asked to work out: what it found, or the one sentence that says why there is nothing; neither while it is worked out.</summary>
public sealed record Inquiry<T>(T? Found, string? Why) where T : class
{
    public static Inquiry<T> Open { get; } = new(null, null);

    public bool IsOpen => Found is null && Why is null;
}
