using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>Lines of our own, in the words of the bay (common practice, no source), that name nothing: they speak of what was told last.</summary>
public class SpokenOfTests
{
    [Theory]
    [InlineData("three bolts off the alternator", "laid aside to the left and tied up", "aside; part alternator; note to the left")]
    [InlineData("alternator off", "tied up out of the way", "aside; part alternator")]
    [InlineData("top hose off", "swung to the left and tied up", "aside; part top hose; note to the left")]
    [InlineData("alternator off", "laid aside and tied up the loom", "aside; part loom")]
    [InlineData("seal out of the gearbox housing", "stuffed a rag in the hole", "covered; part seal; cover rag")]
    [InlineData("two hydraulic hoses off", "plugs in the ends, tied up", "covered; part hydraulic hoses; cover plugs + aside; part hydraulic hoses")]
    [InlineData("motor off", "plugs in the ends, tied up", "covered; part ends; cover plugs; note tied up")]
    // Of what the bolts were, nobody said.
    [InlineData("three bolts out", "tied up out of the way", "note; note tied up out of the way")]
    [InlineData("customer rang", "tied up out of the way", "note; note tied up out of the way")]
    [InlineData("shaft seal out", "lip torn", "note; part lip; broken + wanted; part shaft seal")]
    [InlineData("shaft seal out", "lip worn, needs a new one", "note; note lip worn, needs a new one + wanted; part shaft seal")]
    [InlineData("shaft seal out", "lip worn", "note; note lip worn")]
    [InlineData("customer rang", "pulled the plug and waited for the drum to stop", "safe; part plug; supply high_voltage; note waited for the drum to stop")]
    [InlineData("customer rang", "plug out, waited for it to stop", "safe; part plug; supply high_voltage; note waited for it to stop")]
    [InlineData("customer rang", "plug pulled, waited till the drum stopped", "safe; part plug; supply high_voltage; note waited till the drum stopped")]
    [InlineData("customer rang", "pulled the plug and waited for the oil to run down", "undone; connector; note waited for the oil to run down")]
    [InlineData("customer rang", "pulley bolt out, needed replacing", "undone; bolt; part pulley; note needed replacing + wanted; part Pulley bolt")]
    [InlineData("customer rang", "pulley bolt out, needed a new one", "undone; bolt; part pulley; note needed a new one + wanted; x1; part Pulley bolt")]
    [InlineData("customer rang", "pulley bolt out, needed new washers", "undone; bolt; part pulley; note needed new washers + wanted; part washers")]
    [InlineData("customer rang", "seal out, needed for the pump", "off; part seal; note needed for the pump + wanted; part seal; of pump")]
    [InlineData("customer rang", "gasket needed", "wanted; part gasket")]
    [InlineData("customer rang", "needs a new shaft seal, 25x40x7", "note; note needs a new shaft seal, 25x40x7 + wanted; part shaft seal 25x40x7")]
    // The plug of a machine that has others may be any.
    [InlineData("sensor plug off", "pulled the plug and waited for the drum to stop", "note; note pulled the plug and waited for the drum to stop")]
    [InlineData("lid off", "pulled the plug and waited for the drum to stop", "safe; part plug; supply high_voltage; note waited for the drum to stop")]
    public void What_names_nothing_is_of_what_was_told_last(string before, string line, string meant) =>
        Assert.Equal(meant, ReadingText.Write(LineReader.Read(line, "en", Told(before, "en")).Readings));

    [Theory]
    [InlineData("Lichtmaschine ab", "zur Seite gelegt und hochgebunden", "aside; part Lichtmaschine")]
    [InlineData("Wellendichtring raus", "Lippe gerissen", "note; part Lippe; broken + wanted; part Wellendichtring")]
    [InlineData("Wellendichtring raus", "Dichtlippe eingerissen", "note; part Dichtlippe; broken + wanted; part Wellendichtring")]
    public void In_German_too(string before, string line, string meant) =>
        Assert.Equal(meant, ReadingText.Write(LineReader.Read(line, "de", Told(before, "de")).Readings));

    [Theory]
    // Torn where it is told, the seal itself is broken, and so a new one goes in.
    [InlineData("shaft seal out, lip torn", "off; part shaft seal; broken; note lip torn")]
    [InlineData("seal out, lip worn, needs a new one", "off; part seal; note lip worn, needs a new one + wanted; part seal")]
    [InlineData("lip of the seal torn", "note; part lip; broken; note of the seal + wanted; part seal")]
    [InlineData("lip torn", "note; part lip; broken")]
    public void A_lip_is_no_thing_that_can_be_had(string line, string meant) => Assert.Equal(meant, ReadingText.Write(LineReader.Read(line, "en").Readings));

    [Fact]
    public void The_seal_whose_lip_is_torn_is_to_be_had_and_goes_in_new()
    {
        var bay = new Recorder().Say("cover off").Say("shaft seal out").Say("lip torn");
        Assert.Equal("Shaft seal", Assert.Single(bay.Job.Net.Map.Renewals).Name);
        bay.Say("got the new shaft seal");
        Assert.True(bay.GoesHome());
    }

    private static IReadOnlyList<Reading> Told(string line, string language) => LineReader.Read(line, language).Readings;
}
