namespace Lastoff.Core.Recording;

/// <summary>What a phrase is to the reader: the sections of a word list, and what is made of letters and numbers.</summary>
internal enum WordKind
{
    Joints, ThreadedPlugs, NamedJoints, JointModifiers, Sundries, Hedges, Distributes, Parts, Deeds, InTheWay, Covering, Uncovering, Closing, Verbs, DeedsOf, Flags, Stuck, NotDone, Remarks, Places, Sides, LeftHand, OwnSide,
    Trays, Containers, TrayLooks, TrayLeads, Units, Marks, Tamper, Drives, InchThreads, Fluids, FluidSorts, FluidLooks, Carries, Springs, Supplies, BatteryLeads,
    Tools, With, From, And, Breaks, Stops, Forgotten, Times, OfThem, Them, Fillers, Article, Plural, Numbers, DecimalMarks, Fractions, Lengths, FastenerLengths, LengthLeads, LengthsDiffer, Spans, Markings, Absent, Stays, Nots, Locks, Holders, HoldsSo, HoldsFrom, HoldsIn, Covers, HalfCovers, Openings, CoversBy, PutIn, DeedEnds, Ends, Orders, Splits, LetGo, There, Treated, None, Leaves, Takes, AtEnd, Determiners, Runs, Pronouns, Particles, Keys, Heads, Between, Falling, Inside, WantedBehind, WantedBefore, HereBehind, HereBefore, NewOnes, Needs, Ordering, OrderingLeads, OldOnes, Ones, Remains, Rethreaded, Noting, Unnamed, Features, Switches, Switched, Taps, Shut, Drains, RanOut, Ordinals, Stilled, Roughly, LaidLeads, Laid, Heating, NotFound, Regained, LeadsOff, Sparks, CameOut, Worn, Spent, Pressures, Gone, Untils, PressedIn, Gauges, Zeros, Compounds, Seals, TorqueLeads, OrdinalEnds, Drilled, LeftBe, Shields, Tight, MainsPlugs, Waited, Stood, HadNeed, Hands, LiesSo, Directions, Loosening, ByHand,
    /// <summary>In no list.</summary>
    Word,
    /// <summary>A sign that ends a clause, but not the sentence.</summary>
    Comma,
    Number, Count, Across, Thread, Drive, Length, Torque, Volume, Tray,
}
