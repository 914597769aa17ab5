using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using CsCheck;
using Lastoff.Core;
using Lastoff.Core.Maps;
using Lastoff.Core.Maps.Editing;

namespace Lastoff.Tests.Maps;

/// <summary>A change of a map's text, read by a YAML reader of its own (<see cref="YamlAsJson"/>), is that change and nothing else; and the rest of the text is the same to the byte.</summary>
public class EditedMapTests
{
    private static readonly string[] Demos = [Demo.Text("light-van"), Demo.Text("orchard-sprayer-pump")];

    private static readonly Gen<string> Maps = Gen.OneOf(
        Gen.Select(RandomMaps.UpTo(25), Gen.Byte.Array[0, 400]).Select((map, style) => MapAsYaml.Write(map, new Choices(style))),
        Gen.Int[0, 1].Select(i => Demos[i]));

    // Whatever a hand may type: what YAML gives a meaning to, letters that run from right to left, signs beyond the first 65,536.
    private static readonly Gen<string> Texts = Gen.OneOf(
        Gen.Int[0, 25].Select(i => new[]
        {
            "Pump: the lower one", "50 % 'or' more", "it's \"so\"", "# not a comment", "a #b", "a # b", "- dash", "true", "null", "~", "12", "-4.5", "1e3", ".inf", "0x1F", "{a: b}", "[x]", "&anchor", "*alias",
            "!tag", "🔧 14 mm", "מברג שטוח", "مضخة الماء: ١٢", "line\nbreak", "tab\there", "...",
        }[i]),
        Gen.String[Gen.Char["abc :#'\"\\,[]{}&*!|>%@`-?~=<\t\n\r\u00a0\u0085\u2028\ufeff\ufffd\u0000\u202eé工"], 1, 12],
        Gen.String[1, 12]).Where(text => text.Trim().Length > 0 && !HasHalfSign(text));

    [Fact]
    public void What_the_writer_of_these_tests_writes_reads_as_the_map_it_was() =>
        Gen.Select(RandomMaps.UpTo(25), Gen.Byte.Array[0, 400]).Sample(
            (map, style) =>
            {
                var read = MapReader.Read(MapAsYaml.Write(map, new Choices(style)), "random").Map!;
                Assert.Equal(OperationNet.From(map).Operations.Count, OperationNet.From(read).Operations.Count);
                Assert.Equal(map.Joints.Select(j => (j.Id, j.Name, j.Kind, j.Count, j.Tool, j.UndoMinutes, j.Torque, j.Reach.Either.Count)), read.Joints.Select(j => (j.Id, j.Name, j.Kind, j.Count, j.Tool, j.UndoMinutes, j.Torque, j.Reach.Either.Count)));
            },
            iter: Tries.Of(50));

    [Fact]
    public void A_text_set_is_that_text_and_every_other_field_and_byte_stays() => Gen.Select(Maps, Gen.Int, Texts, Gen.Int[0, 2]).Sample(
        (text, which, typed, field) =>
        {
            var (map, item) = Some(text, which);
            var name = new[] { "name", "caution", "kind" }[field];
            var changed = Changed(map.Set(item, name, typed));
            Assert.Equal(typed.Trim(), changed.Items.Single(i => i.Path == item.Path).Text(name));
            OnlyThisReads(text, changed.Text, items => items[name] = typed.Trim(), item);
            OnlyThisIsWritten(text, changed.Text, item, lines: 1);
        },
        iter: Tries.Of(300));

    [Fact]
    public void A_field_set_to_what_it_is_changes_no_byte() => Gen.Select(Maps, Gen.Int).Sample(
        (text, which) =>
        {
            var (map, item) = Some(text, which);
            foreach (var field in item.Fields.Where(f => item.Text(f).Length > 0).Append("tool.name").Append("tool.drive"))
            {
                Assert.Equal(text, Changed(map.Set(item, field, item.Text(field))).Text);
            }

            foreach (var name in item.Names("reach.clear"))
            {
                Assert.Equal(text, Changed(map.Tick(item, "reach.clear", name, true)).Text);
            }
        },
        iter: Tries.Of(30));

    [Fact]
    public void Numbers_and_flags_stand_without_quotes_and_an_empty_text_takes_the_field_out() => Gen.Select(Maps, Gen.Int, Gen.Int[0, 3]).Sample(
        (text, which, field) =>
        {
            var (map, item) = Some(text, which);
            var (name, typed, value) = new (string, string, JsonNode)[] { ("count", "3", 3), ("undo_min", "2.5", 2.5), ("off_min", "-1", -1), ("captive", "true", true) }[field];
            var changed = Changed(map.Set(item, name, typed));
            OnlyThisReads(text, changed.Text, items => items[name] = value, item);
            OnlyThisIsWritten(text, changed.Text, item, lines: 1);

            var without = Changed(changed.Set(changed.At(item.Path)!, name, ""));
            OnlyThisReads(text, without.Text, items => items.Remove(name), item);
            if (!item.Fields.Contains(name))
            {
                // A last line without an end has got one.
                Assert.Equal(text.TrimEnd(), without.Text.TrimEnd());
            }
        },
        iter: Tries.Of(100));

    [Fact]
    public void A_tool_has_a_name_and_a_drive_in_whichever_form_it_was_written() => Gen.Select(Maps, Gen.Int, Texts, Texts).Sample(
        (text, which, name, drive) =>
        {
            var (map, item) = Some(text, which);
            var before = item.Text("tool.name");
            var driven = Changed(map.Set(item, "tool.drive", drive));
            OnlyThisReads(text, driven.Text, items => items["tool"] = before.Length > 0 ? new JsonObject { ["name"] = before, ["drive"] = drive.Trim() } : new JsonObject { ["drive"] = drive.Trim() }, item);
            var named = Changed(driven.Set(driven.At(item.Path)!, "tool.name", name));
            OnlyThisReads(text, named.Text, items => items["tool"] = new JsonObject { ["name"] = name.Trim(), ["drive"] = drive.Trim() }, item);
            var bare = Changed(named.Set(named.At(item.Path)!, "tool.drive", ""));
            Assert.Equal((name.Trim(), ""), (bare.At(item.Path)!.Text("tool.name"), bare.At(item.Path)!.Text("tool.drive")));
        },
        iter: Tries.Of(100));

    [Fact]
    public void A_name_ticked_is_in_the_list_and_ticked_off_is_out_of_it_and_nothing_else_is_touched() => Gen.Select(Maps, Gen.Int, Gen.Int[0, 3], Gen.Int).Sample(
        (text, which, field, whom) =>
        {
            var (map, item) = Some(text, which);
            var list = new[] { "holds", "needs", "reach.clear", "reach.off" }[field];
            var name = map.Items[Math.Abs(whom % map.Items.Count)].Id;
            var isIn = item.Names(list).Contains(name);
            var changed = Changed(map.Tick(item, list, name, !isIn));
            var after = changed.At(item.Path)!;
            Assert.Equal(isIn ? item.Names(list).Where(n => n != name) : item.Names(list).Append(name), after.Names(list));
            foreach (var other in new[] { "holds", "needs", "reach.clear", "reach.off", "aside.leaves" }.Where(f => f != list))
            {
                Assert.Equal(item.Names(other), after.Names(other));
            }

            OnlyThisReads(text, changed.Text, items => Tick(items, list, name, !isIn), item);
            OnlyThisIsWritten(text, changed.Text, item, lines: 6);
            // Back again: what is read is what was there, but for the order of the list.
            var back = Changed(changed.Tick(after, list, name, isIn)).At(item.Path)!;
            Assert.Equal(item.Names(list).Order(), back.Names(list).Order());
        },
        iter: Tries.Of(300));

    [Fact]
    public void What_is_added_stands_at_the_end_of_its_section_with_an_id_of_its_own() => Gen.Select(Maps, Gen.Int[0, 2], Texts).Sample(
        (text, section, name) =>
        {
            var map = Changed(EditedMap.Read(text));
            var added = Changed(map.Add((MapSection)section, name));
            var item = added.Items.Last(i => i.Section == (MapSection)section);
            Assert.Equal(name.Trim(), item.Text("name"));
            Assert.Matches("^[a-z0-9-]+$", item.Id);
            Assert.Equal(added.Items.Count, added.Items.Select(i => i.Id).Distinct().Count());
            Assert.Equal(map.Items.Count + 1, added.Items.Count);

            var expected = YamlAsJson.Read(text)!.AsObject();
            var heading = item.Path[..item.Path.IndexOf('[')];
            expected.TryAdd(heading, new JsonArray());
            expected[heading]!.AsArray().Add(new JsonObject { ["id"] = item.Id, ["name"] = name.Trim() });
            AssertSame(expected, added.Text);
            Assert.Equal("", Middle(text, added.Text).Old);
            // And out again: the text is what it was, but for the blank line before a section that was new.
            Assert.Equal(WithoutBlankLines(text), WithoutBlankLines(Changed(added.Remove(item)).Text));
        },
        iter: Tries.Of(150));

    [Fact]
    public void An_item_that_nothing_names_is_taken_out_and_another_stays_with_the_reason() => Gen.Select(Maps, Gen.Int).Sample(
        (text, which) =>
        {
            var (map, item) = Some(text, which);
            var answer = map.Remove(item);
            // Counted in the text itself, where an id stands whole but for its own 'id:' field.
            var isNamed = Regex.Count(Regex.Replace(text, @"#[^\n]*note[^\n]*|^\s*#[^\n]*", "", RegexOptions.Multiline), $@"(?<![\w-]|id: ){Regex.Escape(item.Id)}(?![\w-])") > 0;
            if (!answer.TryGet(out var changed, out var why))
            {
                Assert.Contains($"“{item.Called}” stays", why);
                Assert.True(isNamed, item.Id);
                return;
            }

            Assert.False(isNamed && map.Uses(item.Id).Any(use => use.By.Path != item.Path), item.Id);
            var expected = YamlAsJson.Read(text)!.AsObject();
            var heading = item.Path[..item.Path.IndexOf('[')];
            expected[heading]!.AsArray().RemoveAt(item.Index);
            if (expected[heading]!.AsArray().Count == 0)
            {
                expected.Remove(heading);
            }

            AssertSame(expected, changed.Text);
            Assert.Equal("", Middle(text, changed.Text).New);
        },
        iter: Tries.Of(200));

    [Fact]
    public void Whatever_the_text_an_edit_is_made_as_meant_or_refused_in_a_sentence() => Gen.Select(MapReaderFuzzTests.Mutated, Gen.Int, Gen.String).Sample(
        (text, which, typed) =>
        {
            if (!EditedMap.Read(text).TryGet(out var map, out var why))
            {
                Assert.Matches(@"^Line \d+: .*[.?]$", why);
                return;
            }

            Assert.Equal(text, map.Text);
            if (map.Items.Count == 0)
            {
                return;
            }

            var item = map.Items[Math.Abs(which % map.Items.Count)];
            Answer<EditedMap>[] edits =
            [
                map.Set(item, "name", typed), map.Set(item, "tool.drive", typed), map.Set(item, "id", ""), map.TakeOut(item, item.Fields.FirstOrDefault("id")), map.Tick(item, "reach.off", "pump", true),
                map.Tick(item, "holds", item.Names("holds").FirstOrDefault("pump"), false), map.Add(MapSection.Joints, typed), map.Remove(item),
            ];
            foreach (var edit in edits)
            {
                Assert.True(edit.Found ? EditedMap.Read(edit.Value.Text).Found : edit.Sentence!.EndsWith('.'), edit.Sentence);
            }

            if (typed.Trim().Length > 0 && edits[0].TryGet(out var named, out _))
            {
                Assert.Equal(typed.Trim(), named.At(item.Path)!.Text("name"));
            }
        },
        iter: Tries.Of(300));

    [Fact]
    public void Comments_stay_where_they_are()
    {
        const string text = """
            parts:
              # the outer one
              - id: lid   # lifts off
                name: Lid # as the list has it
                # how it is reached
                reach:  # from above
                  - a   # first
                  - b   # second
              - {id: a, name: A} # one
              - {id: b, name: B}
            # the end
            """;
        var map = Changed(EditedMap.Read(text));
        Assert.Equal(text.Replace("name: Lid", "name: 'Lid: the outer'"), Changed(map.Set(map.Items[0], "name", "Lid: the outer")).Text);
        Assert.Equal(text.Replace("      - a   # first\n", ""), Changed(map.Tick(map.Items[0], "reach.clear", "a", false)).Text);
        Assert.Equal(
            text.Replace("reach:  # from above\n      - a   # first\n      - b   # second", "reach: {clear: [a, b], off: [lid]}  # from above   # second"),
            Changed(map.Tick(map.Items[0], "reach.off", "lid", true)).Text);
        Assert.Equal(text.Replace("{id: b, name: B}", "{id: b, name: B, caution: Hot.}"), Changed(map.Set(map.Items[2], "caution", "Hot.")).Text);
        Assert.Equal("“B” stays, because “Lid” still names it; take it out there first.", map.Remove(map.Items[2]).Sentence);
    }

    [Fact]
    public void What_is_called_after_a_fluid_goes_by_its_new_name()
    {
        const string Text = """
            supplies:
              - {id: let-oil, name: Let oil, kind: oil}   # as it was heard
            renewals:
              - {id: fresh, name: Let oil, kind: fluid, for: let-oil, count: 2, unit: L}
              - {id: filter, name: Let oil filter, kind: filter, for: let-oil, count: 1}
            proofs:
              - {id: look, name: "No leak: Let oil", kind: leak_look, for: let-oil}
            """;
        var map = Changed(EditedMap.Read(Text));
        Assert.Equal(
            ["Hydraulic oil", "Hydraulic oil", "Let oil filter", "No leak: Hydraulic oil"],
            Changed(map.Rename(map.Items[0], " Hydraulic oil ")).Items.Select(item => item.Text("name")));
        Assert.Equal(Text.Replace("Let oil filter", "Sieve", StringComparison.Ordinal), Changed(map.Rename(map.Items[2], "Sieve")).Text);
    }

    private static (EditedMap Map, EditedItem Item) Some(string text, int which)
    {
        var map = Changed(EditedMap.Read(text));
        return (map, map.Items[Math.Abs(which % map.Items.Count)]);
    }

    private static EditedMap Changed(Answer<EditedMap> answer) => answer.Or(why => throw new InvalidOperationException(why));

    private static void OnlyThisReads(string before, string after, Action<JsonObject> change, EditedItem item)
    {
        var expected = YamlAsJson.Read(before)!.AsObject();
        change(expected[item.Path[..item.Path.IndexOf('[')]]![item.Index]!.AsObject());
        AssertSame(expected, after);
    }

    private static void AssertSame(JsonNode expected, string text) =>
        Assert.True(JsonNode.DeepEquals(expected, YamlAsJson.Read(text)), $"Expected {expected.ToJsonString()} and read {YamlAsJson.Read(text)!.ToJsonString()} from\n{text}");

    /// <summary>What changed lies within so many lines of the item.</summary>
    private static void OnlyThisIsWritten(string before, string after, EditedItem item, int lines)
    {
        var (start, old, _) = Middle(before, after);
        Assert.InRange(old.Count(c => c == '\n'), 0, lines);
        if (before == after)
        {
            // It was set to what it was.
            return;
        }

        var line = before[..start].Count(c => c == '\n') + 1L;
        var next = Changed(EditedMap.Read(before)).Items.Where(i => i.Line > item.Line).Select(i => i.Line).DefaultIfEmpty(int.MaxValue).Min();
        // What is put in may begin like what follows it, which moves the first difference on by a line.
        Assert.InRange(line, item.Line, next + 1L);
    }

    /// <summary>Where two texts first differ, and what each has there up to where they are the same again.</summary>
    private static (int Start, string Old, string New) Middle(string before, string after)
    {
        var start = before.Zip(after).TakeWhile(pair => pair.First == pair.Second).Count();
        var most = Math.Min(before.Length, after.Length) - start;
        var end = 0;
        while (end < most && before[^(end + 1)] == after[^(end + 1)])
        {
            end++;
        }

        return (start, before[start..^end], after[start..^end]);
    }

    private static void Tick(JsonObject item, string field, string name, bool isIn)
    {
        if (field.StartsWith("reach.", StringComparison.Ordinal))
        {
            var wasWrittenOut = item["reach"] is JsonObject;
            var reach = item["reach"] switch
            {
                JsonArray clear => new JsonObject { ["clear"] = clear.DeepClone() },
                JsonObject fields => fields.DeepClone().AsObject(),
                _ => [],
            };
            Tick(reach, field["reach.".Length..], name, isIn);
            item.Remove("reach");
            if (reach.Count > 0)
            {
                // A reach of things to clear alone may stand short, as it did or because it is new.
                item["reach"] = reach.Count == 1 && reach["clear"] is { } only && !wasWrittenOut ? only.DeepClone() : reach;
            }

            return;
        }

        var names = item[field]?.AsArray().Select(n => n!.ToString()).ToList() ?? [];
        names.Remove(name);
        names.AddRange(isIn ? [name] : []);
        item.Remove(field);
        if (names.Count > 0)
        {
            item[field] = new JsonArray([.. names.Select(n => JsonValue.Create(n))]);
        }
    }

    private static string WithoutBlankLines(string text) => string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Where(line => line.Trim().Length > 0));

    private static bool HasHalfSign(string text) => text.Where((c, i) => char.IsSurrogate(c) && !char.IsSurrogatePair(text, i) && !(i > 0 && char.IsSurrogatePair(text, i - 1))).Any();
}
