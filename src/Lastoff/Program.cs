using System.CommandLine;
using Lastoff.Commands;

// No arguments: serve the app.
var root = new RootCommand("Last off, first on: plan, record and prove a repair that lies under a stack of other parts.")
{
    CheckCommand.Build(),
    PlanCommand.Build(),
    ExtraCommand.Build(),
    PriceCommand.Build(),
    StandingCommand.Build(),
    PaperCommand.Build(),
    LearnCommand.Build(),
    JointCommand.Build(),
    OrderCommand.Build(),
    CoolantCommand.Build(),
    VacuumCommand.Build(),
    HoldCommand.Build(),
    DilutionCommand.Build(),
    WarmupCommand.Build(),
    VinCommand.Build(),
    InviteCommand.Build(),
    ServeCommand.Build(),
    RestoreCommand.Build(),
    VerifyCommand.Build(),
    ExportCommand.Build(),
    ImportCommand.Build(),
};
ServeCommand.AddTo(root);

try
{
    var parsed = root.Parse(args);
    if (parsed.Errors.Count > 0)
    {
        throw new Failure($"{parsed.Errors[0].Message.TrimEnd('.')}; see `lastoff --help`.");
    }

    return await parsed.InvokeAsync(new InvocationConfiguration
    {
        EnableDefaultExceptionHandler = false,
        // The server ends in its own time, with every call answered.
        ProcessTerminationTimeout = null,
    });
}
catch (Failure failure)
{
    Console.Error.WriteLine(failure.Message);
    return Failure.ExitCode;
}
