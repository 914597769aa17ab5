using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Deeds that say not what they were done to: “tied up”, “five litres out”. They are of what the line told before, or of what it tells next.</summary>
internal sealed class DeedsAlone(ToldSoFar told, BareNames bare, Reading? toldLast)
{
    /// <summary>Said before what it was done to.</summary>
    private Heard? _before;

    /// <summary>“Unbolted and lifted off, the pump”: the name as a thing, where a deed was said before it.</summary>
    public Heard GiveTo(Heard heard)
    {
        if (heard is { Shape: Shape.Bare } && _before is { } deed)
        {
            heard = heard with { Shape = Shape.Thing, SaysDeed = true, Reading = heard.Reading with { Deed = deed.Reading.Deed, Kind = deed.Reading.Kind } };
        }

        if (heard.Shape == Shape.Thing && heard.SaysDeed)
        {
            _before = null;
        }
        else if (heard.Shape != Shape.DeedOnly)
        {
            Drop();
        }

        return heard;
    }

    public void Add(Heard heard)
    {
        var deed = heard.Reading.Deed;
        if (bare.Any)
        {
            bare.Resolve(heard with { Reading = heard.Reading with { Kind = null } });
            told.Last!.Note(heard.Clause.Terms);
        }
        else if ((heard.Reading.Volume_L ?? heard.Reading.Question?.Number) is not null && deed is Deed.Off or Deed.Note or Deed.Drained && told.Last is not { Reading: { Deed: Deed.Drained, Volume_L: null } })
        {
            if (told.AddAmount(heard))
            {
                return;
            }

            // “Sump plug off, five litres out”.
            var whose = deed == Deed.Drained && told.Last is { Reading.Kind: null } before ? before.Reading.Part : null;
            told.New(heard.Reading with { Deed = Deed.Drained, Part = whose }, heard).Note(heard.Clause.Terms);
        }
        else if ((deed == Deed.Aside ? told.BesideCovers : told.Last) is { IsRemark: false } last)
        {
            // “Unplugged and unbolted” are two, and so are “unplugged and wound out”.
            var isOther = heard.Reading.Kind is { } kind && kind != last.Reading.Kind || last is { IsOfDeed: true, Reading.Kind: JointKind.Connector } && heard.Reading.Kind is null;
            // “Caliper off, two 13s, hung from the spring”: no bolt hangs, and none is drained.
            var isOfPart = deed == Deed.Aside && (last.Reading.IsTurned() || last.Reading.Kind is JointKind.Clamp or JointKind.Clip or JointKind.Tie) || deed is Deed.Drained or Deed.Safe && last.Reading.Kind is not null;
            var named = isOfPart && last.Reading.Kind is JointKind.Hose or JointKind.Pipe ? last.Reading.Name : null;
            if (last.Reading is { Kind: null, Part: not null } && (deed == Deed.Off && last.Reading.Deed is Deed.Undone or Deed.Off or Deed.Note || deed == Deed.Aside && last.Reading.Deed == deed))
            {
                // “Chain split and off”, “belt cracked, off”, “pinion out, driven out with a punch”, “swung aside and tied up”.
                last.Reading = Merging.WithCount(Merging.Of(last.Reading, heard.Reading), heard) with { Deed = deed };
                last.Note(heard.Clause.Terms);
                return;
            }

            if (deed == Deed.Aside && told.Hanging is { } hanging)
            {
                // “Spark plug lead off and tied back”: the lead is, and not the plug.
                hanging.Reading = hanging.Reading with { Name = hanging.Reading.Name ?? hanging.Lead };
                ToldSoFar.Keep(heard.Clause);
                hanging.Notes.Add(heard.Clause.Whole);
                return;
            }

            if ((last.Reading.Part ?? named) is { } part && !(deed == Deed.Loose && last.Reading is { Kind: null, Deed: Deed.Off }) && (isOfPart || last.SaysDeed && (isOther || deed is not (Deed.Undone or Deed.Note))))
            {
                told.New(Merging.WithCount(heard.Reading with { Part = part }, heard), heard).Note(heard.Clause.Terms);
                return;
            }

            if (isOfPart || deed == Deed.Loose && last.Reading is { Kind: null, Deed: Deed.Off })
            {
                // “Hose off, drained”: of what is not said.
                ToldSoFar.Keep(heard.Clause);
                last.Notes.Add(heard.Clause.Whole);
                return;
            }

            last.SaysDeed = true;
            last.Reading = Merging.WithCount(Merging.Of(last.Reading, heard.Reading), heard) with { Deed = deed is Deed.Loose or Deed.Aside && last.Reading.Deed == Deed.Undone ? deed : last.Reading.Deed };
            last.Note(heard.Clause.Terms);
        }
        else
        {
            // “Unbolted and lifted off ..”: said before what it was done to.
            Drop();
            if (told.Last is { Reading.Deed: Deed.Aside })
            {
                // “Laid aside to the left and tied up”.
                Add(heard);
                return;
            }

            _before = heard;
        }
    }

    public void Drop()
    {
        if (_before is not { } deed)
        {
            return;
        }

        _before = null;
        if (deed.Reading.Deed == Deed.Safe)
        {
            told.New(deed.Reading, deed).Note(deed.Clause.Terms);
        }
        else if (deed.Reading.Deed == Deed.Aside && toldLast is { } spokenOf && SpokenOf.Name(spokenOf) is { } name)
        {
            told.New(deed.Reading with { Part = name }, deed).Note(deed.Clause.Terms);
        }
        else
        {
            told.Remark(deed);
        }
    }
}
