using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>
/// Whether lines in a mechanic's words are read as a mechanic means them. No published corpus of such lines exists, so all files are written by hand:
/// one to make the reader with, nine in other manners that it was mended after, and one before there was a reader and never looked at since.
/// </summary>
public class LineReaderTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("Brake fluid", SupplyKind.Hydraulic)]
    [InlineData("power-steering oil", SupplyKind.Hydraulic)]
    [InlineData("dot 4", SupplyKind.Hydraulic)]
    [InlineData("Red diesel", SupplyKind.FuelPressure)]
    [InlineData("old coolant", SupplyKind.Coolant)]
    [InlineData("Gearbox oil", SupplyKind.Oil)]
    [InlineData("Altes Kühlmittel", SupplyKind.Coolant)]
    [InlineData("Bremsflüssigkeit", SupplyKind.Hydraulic)]
    [InlineData("Pumpenöl", SupplyKind.Oil)]
    [InlineData("isolator", SupplyKind.HighVoltage)]
    [InlineData("Sicherungsautomat", SupplyKind.HighVoltage)]
    [InlineData("Strom", SupplyKind.HighVoltage)]
    [InlineData("", SupplyKind.Oil)]
    public void A_fluid_is_sorted_by_the_words_of_its_name(string name, SupplyKind sort) => Assert.Equal(sort, RecordedThing.SupplyOf(new Reading { Deed = Deed.Drained, Fluid = name }));

    [Theory]
    [InlineData("kein Öldruck im Motor", "de")]
    [InlineData("kein Öldruck mehr", "de")]
    [InlineData("no oil pressure in the engine", "en")]
    [InlineData("fuel tank empty, gauge at zero", "en")]
    public void A_fault_is_told_and_nothing_was_let_off(string line, string language) =>
        Assert.All(LineReader.Read(line, language).Readings, reading => Assert.Equal(Deed.Note, reading.Deed));

    [Fact]
    public void Of_the_lines_it_was_made_with_97_in_100_are_read_as_meant() =>
        AreRead("lines.txt", least: 320, 0.97);

    /// <summary>Batches in the manner of other people: 58.6 %, 48.8 % and 90 % were read as meant when first tried, before the reader was mended after them.</summary>
    [Fact]
    public void Of_lines_in_the_manner_of_others_94_in_100_are_read_as_meant_by_now() =>
        AreRead("fresh-lines.txt", least: 280, 0.94);

    /// <summary>Lines of a third hand, all written before the reader was tried on any of them: 60.7 % were read as meant then.</summary>
    [Fact]
    public void Of_later_lines_93_in_100_are_read_as_meant_by_now() =>
        AreRead("later-lines.txt", least: 150, 0.93);

    /// <summary>Six more files, each written whole before the reader was tried on it and mended after: 81.2 %, 76.1 %, 70.0 %, 81.8 %, 66.7 % and 78.0 % were read as meant at first sight. The shares are what is reached, rounded down: no later mend may lose it.</summary>
    [Theory]
    [InlineData("wider-lines.txt", 0.97)]
    [InlineData("second-wider-lines.txt", 0.97)]
    [InlineData("third-wider-lines.txt", 0.96)]
    [InlineData("fourth-wider-lines.txt", 0.90)]
    [InlineData("fifth-wider-lines.txt", 0.97)]
    [InlineData("sixth-wider-lines.txt", 0.94)]
    public void Of_wider_lines_this_share_is_read_as_meant_by_now(string file, double share) =>
        AreRead(file, least: 55, share);

    [Fact]
    public void Where_a_stranger_was_misread_all_is_read_as_meant_by_now() => AreRead("stranger-lines.txt", least: 15, 1);

    private void AreRead(string file, int least, double share, string language = "en")
    {
        var examples = RecordedExample.Of(file, language);
        var misses = examples.Where(example => !example.IsRight).ToArray();
        var listed = string.Join('\n', misses.Select(miss => $"{miss.Line}\n  expected {miss.Expected}\n  read     {miss.Got}"));
        output.WriteLine($"{examples.Count - misses.Length} of {examples.Count} lines of {file} read as meant.\n{listed}");
        Assert.True(examples.Count >= least);
        Assert.True(misses.Length <= (1 - share) * examples.Count, listed);
    }

    [Fact]
    public void Of_lines_it_was_not_made_with_90_in_100_are_read_as_meant()
    {
        var examples = RecordedExample.Of("unseen-lines.txt");
        var misses = examples.Count(example => !example.IsRight);
        output.WriteLine($"{examples.Count - misses} of {examples.Count} unseen lines read as meant.");
        Assert.True(examples.Count >= 130);
        // Which lines they are is not said: whoever knows would make the reader fit them.
        Assert.True(misses <= 0.10 * examples.Count, $"{misses} of {examples.Count} unseen lines are not read as meant.");
    }

    [Theory]
    // Widths across flats of ISO 272 for M6, M8, M10 and M12 (10, 13, 16, 18 mm), from memory: all are taken for heads where they stand alone.
    [InlineData("three 10 bolts off the lid", 10)]
    [InlineData("three 13 bolts off the lid", 13)]
    [InlineData("three 16 bolts off the lid", 16)]
    [InlineData("three 18 bolts off the lid", 18)]
    // Hexagon heads of ASME B18.2.1 for 1/4, 5/16, 3/8 and 1/2 in (7/16, 1/2, 9/16, 3/4 in), from memory.
    [InlineData("three 7/16 bolts off the lid", 7 * 25.4 / 16)]
    [InlineData("three half inch bolts off the lid", 25.4 / 2)]
    [InlineData("three nine sixteenths bolts off the lid", 9 * 25.4 / 16)]
    [InlineData("three three quarter inch bolts off the lid", 3 * 25.4 / 4)]
    public void A_size_is_across_the_flats_of_the_head(string line, double across_mm)
    {
        var reading = Assert.Single(LineReader.English.Read(line).Readings);
        Assert.Equal((3, JointKind.Bolt, "lid"), (reading.Count, reading.Kind, reading.Part));
        Assert.Equal(across_mm, reading.Across!.Value.Value_mm, 9);
    }

    [Theory]
    // Internal star sizes of ISO 10664, from memory; ISO 14583 pan heads take T30 on M6 and T45 on M8, from memory.
    [InlineData("T6")]
    [InlineData("T8")]
    [InlineData("T10")]
    [InlineData("T15")]
    [InlineData("T20")]
    [InlineData("T25")]
    [InlineData("T27")]
    [InlineData("T30")]
    [InlineData("T40")]
    [InlineData("T45")]
    [InlineData("T50")]
    [InlineData("T55")]
    [InlineData("T60")]
    [InlineData("T70")]
    [InlineData("T80")]
    [InlineData("T90")]
    [InlineData("T100")]
    public void A_star_size_is_a_drive(string mark)
    {
        var number = int.Parse(mark[1..], System.Globalization.CultureInfo.InvariantCulture);
        foreach (var said in new[] { mark, mark.ToLowerInvariant(), $"torx {number}" })
        {
            var reading = Assert.Single(LineReader.English.Read($"two {said} screws off the lid").Readings);
            Assert.Equal((2, new Drive(DriveShape.InnerStar, number)), (reading.Count, reading.Drive));
        }
    }

    [Fact]
    public void A_doubt_asks_one_question_and_each_answer_settles_it()
    {
        var reading = Assert.Single(LineReader.English.Read("bolt 12").Readings);
        var question = reading.Question!;
        Assert.Equal(["12 of them", "12 mm head"], question.Answers);
        Assert.Equal("undone; bolt; x12", ReadingText.Write(question.Answered(reading, 0)));
        Assert.Equal("undone; bolt; 12mm", ReadingText.Write(question.Answered(reading, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => question.Answered(reading, 2));
    }

    [Theory]
    [InlineData("three bolts off the lid, tray 2")]
    [InlineData("return hose off, hydraulic oil drained")]
    [InlineData("radiator hung to one side")]
    public void Where_nothing_is_in_doubt_nothing_is_asked(string line) =>
        Assert.All(LineReader.English.Read(line).Readings, reading => Assert.Null(reading.Question));

    [Theory]
    [InlineData("Überwurfmutter ab, Kupferring, neuer nötig", "undone; nut; name Überwurfmutter; note Kupferring, neuer nötig + wanted; part Kupferring")]
    [InlineData("Zündkabel von der Kerze ab, damit keiner startet", "undone; connector; name Zündkabel; part Kerze; note damit keiner startet")]
    [InlineData("das Öl ausgekippt, 2 Liter", "drained; fluid Öl; volume 2L")]
    [InlineData("Zylinder ganz eingefahren, kein Druck drauf", "note; note Zylinder ganz eingefahren + safe; part Druck")]
    [InlineData("Zylinder eingefahren, kein Druck im Zylinder", "note; note Zylinder eingefahren + safe; part Druck im Zylinder")]
    [InlineData("prüfen, dass kein Druck im Zylinder ist", "note; note prüfen, dass kein Druck im Zylinder ist")]
    [InlineData("Kessel leer, Manometer auf null", "safe; part Kessel; note Manometer auf null")]
    [InlineData("Kessel abgeblasen", "safe; part Kessel")]
    [InlineData("Öldruck auf null", "note; note Öldruck auf null")]
    [InlineData("Öldruck fällt auf 0", "note; note Öldruck fällt auf 0")]
    [InlineData("Wasserdruck auf null", "note; note Wasserdruck auf null")]
    [InlineData("Ladedruck weg", "note; note Ladedruck weg")]
    [InlineData("Druck auf null", "safe; part Druck")]
    [InlineData("Reifendruck abgelassen", "safe; part Reifendruck")]
    [InlineData("Kompressorrippen abgeblasen", "note; note Kompressorrippen abgeblasen")]
    [InlineData("Kompressor abgeblasen", "safe; part Kompressor")]
    [InlineData("Öl abgelassen, eins Komma acht Liter", "drained; fluid Öl; volume 1.8L")]
    [InlineData("ein Komma fünf Liter Öl raus", "drained; fluid Öl; volume 1.5L")]
    public void Pressure_fluids_and_notes_are_read_in_German(string line, string expected) => Assert.Equal(expected, ReadingText.Write(LineReader.Read(line, "de").Readings));

    /// <summary>Written in German by hand, too: one file to make the list with, one that was mended after (76.7 % at first sight), and one of looser lines that it was not mended after. No share may be lost.</summary>
    [Theory]
    [InlineData("german-lines.txt", 0.97)]
    [InlineData("german-later-lines.txt", 0.96)]
    [InlineData("german-unseen-lines.txt", 0.75)]
    public void Of_lines_in_German_this_share_is_read_as_meant(string file, double share) =>
        AreRead(file, least: 30, share, "de");

    [Theory]
    [InlineData("de", "petrol drained, 2 L", "drained; fluid petrol; volume 2L")]
    [InlineData("de", "vier 10er Schrauben von der Haube, Schale 1", "undone; bolt; x4; 10mm; name Schrauben; part Haube; tray 1")]
    [InlineData("de", "Gehäuse ab, je zwei 17er Schrauben pro Seite, Schale 2", "off; part Gehäuse + undone; bolt; x4; 17mm; name Schrauben; part Gehäuse; tray 2")]
    [InlineData("de", "Gehäuse ab, beidseits je zwei Schrauben", "off; part Gehäuse + undone; bolt; x4; name Schrauben; part Gehäuse")]
    [InlineData("de", "je zwei Schrauben vom Deckel ab", "undone; bolt; x2; name Schrauben; part Deckel; note je")]
    [InlineData("de", "Getriebeöl abgelassen, 14er Stopfen, 0,8 Liter in die blaue Wanne", "drained; fluid Getriebeöl; volume 0.8L; note in die blaue Wanne + undone; bolt; 14mm; name Stopfen")]
    [InlineData("de", "Öffnung mit einem sauberen Lappen verschlossen", "covered; part Öffnung; cover sauberen Lappen")]
    [InlineData("de", "Kraftstoffleitung ab, Ende mit einer Schraube verschlossen", "undone; pipe; name Kraftstoffleitung + covered; part Kraftstoffleitung; cover Schraube")]
    [InlineData("de", "Kerzenstecker ab, zurückgebunden", "undone; connector; name Kerzenstecker; note zurückgebunden")]
    [InlineData("de", "Wellendichtring raus, Lippe hart und gerissen", "off; part Wellendichtring; broken; note Lippe hart und gerissen")]
    [InlineData("de", "Schlüssel in der Tasche", "note; note Schlüssel in der Tasche")]
    [InlineData("de", "zwei lange Schrauben raus, vier kurze", "undone; bolt; x2; name lange Schrauben + undone; bolt; x4; name kurze Schrauben")]
    [InlineData("de", "Masseband gelöst", "undone; connector; name Masseband")]
    [InlineData("de", "3/8 Stopfen, Inbus 8", "undone; bolt; 8mm; inner_hex; name 3/8 in Stopfen")]
    [InlineData("de", "Schelle 19 mm Sechskant", "undone; clamp; 19mm; hex; name Schelle")]
    [InlineData("de", "Batterie abgeklemmt", "safe; part Batterie; supply battery")]
    [InlineData("de", "Schlauch vom Kühler ab", "undone; hose; name Kühler-Schlauch; part Kühler")]
    [InlineData("de", "Benzin abgelassen, 2 L", "drained; fluid Benzin; volume 2L")]
    [InlineData("de", "Dichtung sieht schlecht aus", "note; note Dichtung sieht schlecht aus")]
    [InlineData("de", "Kettenrad ab, Passfeder in Schale 2", "off; part Kettenrad + off; part Passfeder; tray 2")]
    [InlineData("de", "Hauptschalter aus und abgeschlossen", "safe; part Batterie; supply battery; note abgeschlossen")]
    [InlineData("de", "Sicherungsautomat aus", "safe; part Sicherungsautomat; supply high_voltage")]
    [InlineData("de", "Sicherungsautomat raus", "off; part Sicherungsautomat")]
    [InlineData("de", "Strom am Hauptschalter aus", "safe; part Strom; supply high_voltage; note am Hauptschalter")]
    [InlineData("de", "Motor aus", "note; note Motor aus")]
    [InlineData("en", "don't lose the spring", "note; note don't lose the spring")]
    [InlineData("xx", "starter off", "off; part starter")]
    public void A_line_is_read_in_English_where_the_language_finds_nothing_done(string language, string line, string meant) =>
        Assert.Equal(meant, ReadingText.Write(LineReader.Read(line, language).Readings));

    [Theory]
    [InlineData("Motor aus, Zapfwelle aus, Schlüssel raus", "note; note Motor aus, Zapfwelle aus, Schlüssel raus")]
    [InlineData("Schlüssel abgezogen", "note; note Schlüssel abgezogen")]
    [InlineData("Motor raus", "off; part Motor")]
    [InlineData("Stift rausgeschlagen", "off; part Stift")]
    [InlineData("Lager ausgetrieben", "off; part Lager")]
    [InlineData("Deckel gehebelt", "off; part Deckel")]
    [InlineData("Kette ab, Kettenschloss in der Dose", "off; part Kette + undone; clip; name Kettenschloss; part Kette; tray Dose")]
    [InlineData("Deckel ab, vier Schrauben auf der Werkbank", "off; part Deckel + undone; bolt; x4; name Schrauben; part Deckel; tray Werkbank")]
    [InlineData("Öl abgelassen, etwa zwei Liter, blaue Kanne", "drained; fluid Öl; volume 2L; note blaue Kanne")]
    [InlineData("Kerzenstecker ab", "undone; connector; name Kerzenstecker")]
    [InlineData("Zündkerzenstecker ab und zur Seite gebunden", "undone; connector; name Zündkerzenstecker; note zur Seite gebunden")]
    [InlineData("Hebel hin und her bewegt, bis kein Druck mehr im Zylinder war", "note; note Hebel hin und her bewegt + safe; part Druck im Zylinder")]
    [InlineData("kein Druck mehr drauf", "safe; part Druck")]
    [InlineData("rote Kappe auf dem Druckanschluss", "covered; part Druckanschluss; cover rote Kappe")]
    [InlineData("blauer Stopfen im Rücklaufanschluss", "covered; part Rücklaufanschluss; cover blauer Stopfen")]
    [InlineData("Saugschlauch ab, eine Schelle 7 mm, hochgebunden", "undone; hose; name Saugschlauch; note hochgebunden + undone; clamp; x1; 7mm; name Schelle; part Saugschlauch")]
    [InlineData("Stumpf der abgerissenen Schraube ausgebohrt, Gewinde M8 nachgeschnitten", "note; note Stumpf der abgerissenen Schraube ausgebohrt, Gewinde M8 nachgeschnitten")]
    [InlineData("alten Schraubenstumpf ausgebohrt", "note; note alten Schraubenstumpf ausgebohrt")]
    [InlineData("abgerissene Schraube ausgebohrt", "undone; bolt; name Schraube; broken")]
    [InlineData("Notiz: vier M8 raus", "note; note vier M8 raus")]
    [InlineData("Hydraulikschlauch ab, Stopfen drin, hochgebunden", "undone; hose; name Hydraulikschlauch; note hochgebunden + covered; part Hydraulikschlauch; cover Stopfen")]
    [InlineData("vergessen: zwei Scheiben hinter der Riemenscheibe", "off; x2; part Scheiben; note hinter der Riemenscheibe")]
    [InlineData("Deckel ab, vier Schrauben in der kleinen Tüte", "off; part Deckel + undone; bolt; x4; name Schrauben; part Deckel; tray kleinen Tüte")]
    [InlineData("Passfeder in einer Tüte", "off; part Passfeder; tray Tüte")]
    public void What_was_made_still_what_was_levered_out_and_where_it_was_laid_is_read_in_German_too(string line, string meant) =>
        Assert.Equal(meant, ReadingText.Write(LineReader.Read(line, "de").Readings));

    [Fact]
    public void A_key_behind_the_wheel_of_the_line_before_came_off() =>
        Assert.Equal("off; part key", ReadingText.Write(LineReader.Read("key out", "en", LineReader.Read("pulley off", "en").Readings).Readings));

    [Theory]
    [InlineData("four bolts that were wrong", true)]
    [InlineData("two clips tagged", true)]
    [InlineData("engine off, key out", true)]
    [InlineData("two brackets to be painted", true)]
    [InlineData("customer rang", false)]
    [InlineData("waited ten minutes", false)]
    [InlineData("four bolts off the lid", false)]
    [InlineData("lid off, four bolts to go", false)]
    [InlineData("gasket torn", false)]
    public void A_note_that_names_things_is_told_from_one_that_does_not(string line, bool isOnlyNote) => Assert.Equal(isOnlyNote, LineReader.IsOnlyNote(line, LineReader.Read(line, "en").Readings));

    [Fact]
    public void Another_language_is_another_list()
    {
        var german = LineReader.With("""
            language: de
            joints: {bolt: [schraube|schrauben]}
            deeds: {removed: [ab, raus]}
            from: [von]
            fillers: [die, der]
            units: {mm: [mm, er]}
            numbers: {3: [drei]}
            trays: [schale]
            """);
        Assert.Equal("undone; bolt; x3; 13mm; part Pumpe; tray 2", ReadingText.Write(german.Read("drei 13er Schrauben von der Pumpe, Schale 2").Readings));
    }

    [Fact]
    public void A_list_that_cannot_be_read_says_where() =>
        Assert.Contains("'bolts'", Assert.Throws<FormatException>(() => LineReader.With("bolts: [bolt]")).Message, StringComparison.Ordinal);
}
