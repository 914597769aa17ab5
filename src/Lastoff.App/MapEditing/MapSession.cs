using Lastoff.App.Device;
using Lastoff.Core;
using Lastoff.Core.Maps;
using Lastoff.Core.Maps.Editing;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.MapEditing;

/// <summary>One map in the editor: its text, what is wrong with it, and the way back. The forms and the text view change the same text.</summary>
public sealed class MapSession
{
    private const int MostUndone = 200;

    /// <summary>How long a hand rests before what it typed is read.</summary>
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(150);

    private readonly MapDrafts _drafts;
    private readonly MapShelf _shelf;
    private readonly List<(string Text, string What)> _before = [];
    private string _saved;
    private string? _editedFrom;
    private Typing? _typing;
    private int _turn;

    private MapSession(string name, string saved, MapDraft draft, MapDrafts drafts, MapShelf shelf)
    {
        (Name, _saved, _editedFrom, _drafts, _shelf) = (name, saved, draft.EditedFrom, drafts, shelf);
        Text = draft.Text;
        Read();
    }

    /// <summary>What was typed last and is not read yet.</summary>
    /// <param name="What">Typing on at the same place is one step back.</param>
    private sealed record Typing(string What, Func<EditedMap?, Answer<string>> Change, bool WaitsForTheEnd);

    public event Action? Changed;

    /// <summary>The name it was opened by.</summary>
    public string Name { get; private set; }

    public string Text { get; private set; }

    /// <summary>The text taken apart; null while it is not YAML, and then only the text itself can be edited.</summary>
    public EditedMap? Map { get; private set; }

    public MapReading Reading { get; private set; } = new("", null, []);

    /// <summary>How many operations the map has, and whether every part can come off; null while it has faults.</summary>
    public (int Operations, bool IsWhole)? Count { get; private set; }

    /// <summary>What was not done and why, or what was; empty when there is nothing to say.</summary>
    public string Notice { get; private set; } = "";

    public bool IsDraftKept { get; private set; } = true;

    public bool IsChanged => Text != _saved;

    public bool CanUndo => _before.Count > 0;

    /// <summary>The map as it was left: its draft if there is one, else as it is on this device. Null when it is neither.</summary>
    public static async Task<MapSession?> OpenAsync(string name, MapDrafts drafts, MapShelf shelf)
    {
        var shelved = await shelf.FindAsync(name);
        var draft = await drafts.FindAsync(name) ?? (shelved is null ? null : new MapDraft(shelved.Yaml, shelved.Fingerprint));
        return draft is null ? null : new MapSession(name, shelved?.Yaml ?? "", draft, drafts, shelf);
    }

    public IEnumerable<MapFault> FaultsAt(EditedItem item) => Reading.Faults.Where(fault => Map?.At(fault.Path) == item);

    /// <summary>The faults of a field and of what stands within it.</summary>
    public IEnumerable<MapFault> FaultsAt(EditedItem item, string field) => FaultsAt(item).Where(fault => IsWithin(fault.Path[item.Path.Length..].TrimStart('.'), field));

    public static bool IsWithin(string path, string field) => path == field || path.StartsWith($"{field}.", StringComparison.Ordinal) || path.StartsWith($"{field}[", StringComparison.Ordinal);

    /// <summary>A letter was typed in a field of an item. An emptied field stays in the text until the hand leaves it, lest its comment go with it.</summary>
    public void Type(string item, string field, string text) => Wait(new Typing(
        $"{item} {field}",
        map => map?.At(item) is { } at ? TextOf(field == "name" ? map.Rename(at, text) : map.Set(at, field, text)) : Answer.Of(Text),
        text.Trim().Length == 0));

    /// <summary>A letter was typed in the text itself.</summary>
    public void Type(string text)
    {
        // A text area knows one line end only.
        var written = Text.Contains("\r\n", StringComparison.Ordinal) ? text.ReplaceLineEndings("\r\n") : text;
        Wait(new Typing("text", _ => written, false));
    }

    /// <summary>The hand has left the field: what was typed counts.</summary>
    public void Finish()
    {
        _turn++;
        if (_typing is { } typing)
        {
            _typing = null;
            Change(typing.Change(Map), typing.What);
        }
    }

    /// <summary>Changes the map at once, as a step of its own.</summary>
    public bool Do(Func<EditedMap, Answer<EditedMap>> change)
    {
        Finish();
        return Map is { } map && Change(TextOf(change(map)), "");
    }

    public void Undo()
    {
        Finish();
        if (_before.Count > 0)
        {
            var (text, _) = _before[^1];
            _before.RemoveAt(_before.Count - 1);
            Become(text);
        }
    }

    public void ThrowAway()
    {
        Finish();
        Change(_saved, "");
    }

    /// <summary>Saves the map for new jobs; with faults in it, it stays a draft. True when it was saved.</summary>
    public async Task<bool> SaveAsync()
    {
        Finish();
        if (Reading.Map is not { Name: var name })
        {
            Tell(Say($"Not saved as a map, because it has {Words(Reading.Faults.Count)}; it stays on this device as a draft."));
            return false;
        }

        var text = Text;
        if (!(await _shelf.SaveAsync(text, _editedFrom)).TryGet(out var saved, out var why))
        {
            Tell(Say($"{Say(why)} It stays on this device as a draft."));
            return false;
        }

        await _drafts.ForgetAsync(Name);
        (Name, _saved, _editedFrom) = (name, saved.Yaml, saved.Fingerprint);
        if (Text != text)
        {
            // Typed on while the disk wrote: that is the next draft.
            Become(Text);
        }
        else if (text != _saved)
        {
            Become(_saved);
        }

        Tell(Say("Saved. New jobs use it."));
        return true;
    }

    public static string Words(int faults) => faults == 1 ? Say("1 fault") : Say($"{faults} faults");

    private static Answer<string> TextOf(Answer<EditedMap> answer) => answer.TryGet(out var map, out var why) ? map.Text : Answer.None<string>(why);

    private async void Wait(Typing typing)
    {
        if (_typing is { } other && other.What != typing.What)
        {
            Finish();
        }

        _typing = typing;
        var turn = ++_turn;
        await Task.Delay(Rest);
        if (turn == _turn && !typing.WaitsForTheEnd)
        {
            Finish();
        }
    }

    private bool Change(Answer<string> answer, string what)
    {
        if (!answer.TryGet(out var text, out var why))
        {
            Tell(Say(why));
            return false;
        }

        if (text != Text)
        {
            if (what.Length == 0 || _before.Count == 0 || _before[^1].What != what)
            {
                _before.Add((Text, what));
                _before.RemoveRange(0, Math.Max(0, _before.Count - MostUndone));
            }

            Become(text);
        }

        return true;
    }

    private async void Become(string text)
    {
        Text = text;
        Read();
        Tell("");
        if (IsChanged)
        {
            IsDraftKept = await _drafts.KeepAsync(Name, Map?.Title is { Length: > 0 } title ? title : Name, new MapDraft(text, _editedFrom));
            Changed?.Invoke();
        }
        else
        {
            await _drafts.ForgetAsync(Name);
        }
    }

    private void Read()
    {
        Map = EditedMap.Read(Text).Value;
        Reading = MapReader.Read(Text, Name);
        if (Reading.Map is not { } map)
        {
            Count = null;
            return;
        }

        var net = OperationNet.From(map);
        var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
        Count = (net.Operations.Count, net.Supported(all).Equals(all));
    }

    private void Tell(string notice)
    {
        Notice = notice;
        Changed?.Invoke();
    }
}
