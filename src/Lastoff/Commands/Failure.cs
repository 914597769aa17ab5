namespace Lastoff.Commands;

/// <summary>Something the user gave cannot be used; the message is the one sentence they read.</summary>
public sealed class Failure(string sentence) : Exception(sentence)
{
    public const int ExitCode = 2;
}
