namespace Lastoff.Core.Planning.TwoHands;

/// <summary>What comes before what on every course, whatever ways are taken.</summary>
internal static class MustBefore
{
    /// <summary>For every member what is undone before it on every way out: the largest sets that agree with each other.</summary>
    public static ulong[][] Of(Course course)
    {
        var before = new ulong[course.Size][];
        for (var i = 0; i < course.Size; i++)
        {
            before[i] = Bits.Has(course.Members, i) ? (ulong[])course.Members.Clone() : new ulong[course.Words];
        }

        for (var changed = true; changed;)
        {
            changed = false;
            for (var i = Bits.Next(course.Members, 0); i >= 0; i = Bits.Next(course.Members, i + 1))
            {
                var now = (ulong[])course.Members.Clone();
                foreach (var way in course.Ways[i])
                {
                    var ofWay = new ulong[course.Words];
                    foreach (var need in way.Needs)
                    {
                        Bits.AddAll(ofWay, OfAny(course, before, need));
                    }

                    Bits.KeepOnly(now, ofWay);
                }

                changed |= Bits.Count(now) != Bits.Count(before[i]);
                before[i] = now;
            }
        }

        return before;
    }

    /// <summary>What is undone on every course that undoes something of the set, the one of it included when there is only one.</summary>
    public static ulong[] OfAny(Course course, ulong[][] before, ulong[] set)
    {
        var common = new ulong[course.Words];
        if (course.IsOut && Bits.Overlap(set, course.Start))
        {
            return common;
        }

        var isFirst = true;
        for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
        {
            if (!Bits.Has(course.Members, i))
            {
                continue;
            }

            var own = (ulong[])before[i].Clone();
            Bits.Add(own, i);
            if (isFirst)
            {
                Bits.AddAll(common, own);
            }

            Bits.KeepOnly(common, own);
            isFirst = false;
        }

        return common;
    }

    /// <summary>The first of a pair comes before the second wherever both are undone.</summary>
    public static ulong[][] WithPairs(Course course, ulong[][] before)
    {
        for (var changed = true; changed;)
        {
            changed = false;
            for (var i = Bits.Next(course.Members, 0); i >= 0; i = Bits.Next(course.Members, i + 1))
            {
                var had = Bits.Count(before[i]);
                if (course.FirstOf[i] >= 0 && Bits.Has(course.Forced, i) && Bits.Has(course.Forced, course.FirstOf[i]))
                {
                    Bits.Add(before[i], course.FirstOf[i]);
                }

                for (var j = Bits.Next(before[i], 0); j >= 0; j = Bits.Next(before[i], j + 1))
                {
                    Bits.AddAll(before[i], before[j]);
                }

                changed |= Bits.Count(before[i]) != had;
            }
        }

        return before;
    }

    /// <summary>The same read backwards.</summary>
    public static ulong[][] Turned(Course course, ulong[][] before)
    {
        var turned = new ulong[course.Size][];
        for (var i = 0; i < course.Size; i++)
        {
            turned[i] = new ulong[course.Words];
        }

        for (var i = 0; i < course.Size; i++)
        {
            for (var j = Bits.Next(before[i], 0); j >= 0; j = Bits.Next(before[i], j + 1))
            {
                Bits.Add(turned[j], i);
            }
        }

        return turned;
    }
}
