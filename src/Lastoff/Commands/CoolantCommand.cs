using System.CommandLine;

namespace Lastoff.Commands;

/// <summary><c>lastoff coolant</c>: what a mixture does, what to pour, how to flush.</summary>
internal static class CoolantCommand
{
    public static Command Build() => new("coolant", "Glycol and water: what a mixture does, what to pour, how to flush.")
    {
        CoolantMixCommand.Build(),
        CoolantRefillCommand.Build(),
        CoolantFlushCommand.Build(),
    };
}
