using System.CommandLine;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary>The options that describe a bolt and how it turns, alike in every joint command.</summary>
internal sealed class BoltOptions
{
    private readonly Option<string> _thread = new("--thread") { Description = "The thread: M8, M8x1.25, 3/8-16 UNC, #10-32.", Required = true };
    private readonly Option<string> _class = new("--class") { Description = "The property class (4.6 to 12.9) or, for inch bolts, the SAE grade (2, 5, 8).", Required = true };
    private readonly Option<string> _mu = new("--mu") { Description = "Friction in the thread: one figure, or what it can lie between as 0.10..0.14.", Required = true };
    private readonly Option<string?> _muHead = new("--mu-head") { Description = "Friction under the head, when it is another." };
    private readonly Option<string?> _outer = new("--bearing-outer") { Description = "Bearing diameter of the head, such as 11.6mm; an ordinary hexagon head when left out." };
    private readonly Option<string?> _hole = new("--hole") { Description = "Diameter of the clearance hole, such as 9mm." };
    private readonly Option<string?> _fastener = new("--fastener") { Description = "plain, prevailing_torque, thread_forming or tightened_to_yield; plain when left out." };
    private readonly Option<string?> _condition = new("--condition") { Description = "How the threads go together: dry, oiled, zinc_plated or thread_locked. It corrects nothing by itself." };
    private readonly Option<string?> _source = new("--source") { Description = "Who states the condition." };

    public void AddThreadTo(Command command) => command.Options.Add(_thread);

    public void AddConditionTo(Command command)
    {
        command.Options.Add(_fastener);
        command.Options.Add(_condition);
        command.Options.Add(_source);
    }

    public void AddAllTo(Command command)
    {
        AddThreadTo(command);
        foreach (var option in (Option[])[_class, _mu, _muHead, _outer, _hole])
        {
            command.Options.Add(option);
        }

        AddConditionTo(command);
    }

    public ScrewThread Thread(ParseResult parsed) => ThreadReader.Read(parsed.GetValue(_thread)!).OrFail("--thread");

    public Tightening Tightening(ParseResult parsed)
    {
        RefuseWhatIsNotPlain(parsed);
        var thread = Thread(parsed);
        var friction = Friction.Read(parsed.GetValue(_mu)!).OrFail("--mu");
        var face = parsed.GetValue(_outer) is null && parsed.GetValue(_hole) is null
            ? BearingFace.For(thread)
            : BearingFace.Stated(thread, parsed.Read(_outer, Measure.Length_mm), parsed.Read(_hole, Measure.Length_mm)).OrFail();
        return new Tightening(thread, BoltGrade.Of(parsed.GetValue(_class)!, thread).OrFail("--class"), face, friction,
            parsed.GetValue(_muHead) is { } head ? Friction.Read(head).OrFail("--mu-head") : friction);
    }

    /// <exception cref="Failure">No formula holds for such a fastener.</exception>
    public void RefuseWhatIsNotPlain(ParseResult parsed)
    {
        if (parsed.GetValue(_fastener) is { } word && FastenerActions.WhyNot(Choice<FastenerAction>(_fastener, word)) is { } why)
        {
            throw new Failure(why);
        }
    }

    public StatedCondition? Condition(ParseResult parsed) => parsed.GetValue(_condition) is { } word
        ? new StatedCondition(Choice<ThreadCondition>(_condition, word), parsed.GetValue(_source) ?? "the command line")
        : null;

    private static T Choice<T>(Option<string?> option, string word) where T : struct, Enum => Core.Maps.Words<T>.TryRead(word, out var value)
        ? value
        : throw new Failure($"{option.Name} {word}: this is not known; use one of {string.Join(", ", Core.Maps.Words<T>.All)}.");
}
