namespace Lastoff.Core.Maps;

/// <summary>One machine, or one area of it: its parts, the joints between them, and what is in the way of what.</summary>
/// <remarks>Everything else (plan, tools, renewals, last looks) is computed from it. Identifiers are unique over the whole map.</remarks>
public sealed record Map
{
    /// <summary>Longer is no name of a file.</summary>
    public const int LongestName = 100;

    public required string Name { get; init; }
    public required string Title { get; init; }
    /// <summary>True when the machine and all its figures are made up, which every screen and paper then says.</summary>
    public bool Invented { get; init; }
    /// <summary>True when it was made from recordings: where something is and what it is done with is then known only where somebody told it, and what holds a fluid in is not known at all.</summary>
    public bool Learned { get; init; }
    public string About { get; init; } = "";
    /// <summary>What is to be known before a job begins, as whoever did it before wrote it down.</summary>
    public IReadOnlyList<string> Lessons { get; init; } = [];
    public SetUpMinutes SetUp { get; init; } = SetUpMinutes.Usual;
    /// <summary>Places too near to each other for two people at work, beyond what holds on any machine.</summary>
    public IReadOnlyList<PlacePair> Collide { get; init; } = [];
    public IReadOnlyList<Supply> Supplies { get; init; } = [];
    public IReadOnlyList<Part> Parts { get; init; } = [];
    public IReadOnlyList<Joint> Joints { get; init; } = [];
    public IReadOnlyList<Opening> Openings { get; init; } = [];
    public IReadOnlyList<Renewal> Renewals { get; init; } = [];
    public IReadOnlyList<Proof> Proofs { get; init; } = [];
    /// <summary>What goes home after other things although nothing forces it, in the order in which it is to be heeded. No file has it: the planner finds the cheapest order by itself.</summary>
    public IReadOnlyList<HomeAfter> Homeward { get; init; } = [];
}

/// <param name="Target">The joint or supply that goes home later.</param>
/// <param name="After">The parts, joints and supplies it comes after.</param>
public sealed record HomeAfter(string Target, IReadOnlySet<string> After);

/// <summary>What it costs, in minutes, to put one tool down and take another, to walk to another side, to raise or lower the lift.</summary>
public sealed record SetUpMinutes(double Tool, double Position, double Lift)
{
    public static SetUpMinutes Usual { get; } = new(0.4, 0.5, 2.0);

    /// <summary>Taking a tool costs; ending bare-handed does not.</summary>
    public double ToolChange(Tool from, Tool to) => from == to || to.IsHand ? 0 : Tool;

    public double PlaceChange(Position from, Position to) => (from == to ? 0 : Position) + (IsBelow(from) == IsBelow(to) ? 0 : Lift);

    private static bool IsBelow(Position at) => at == Maps.Position.Below;
}

/// <summary>Where the mechanic stands. <see cref="Below"/> is under the machine on the lift; every other side is with the lift down.</summary>
public enum Position { Front, Rear, Left, Right, Above, Below }

/// <summary>What is held in the hand: the tool, and the drive it turns. Two works of the same key need no change between them.</summary>
public sealed record Tool(string Name, string? Drive)
{
    public static Tool Hand { get; } = new("hand", null);
    public bool IsHand => this == Hand;
    public override string ToString() => Drive is null ? Name : $"{Name}, {Drive}";
}
