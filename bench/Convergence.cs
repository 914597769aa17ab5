using System.Buffers.Binary;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Ledger;

namespace Lastoff.Bench;

/// <summary>
/// A random job on several devices and one server: clocks wrong by days, hours offline, messages lost, doubled and out of turn. When all have met at last, all
/// must show the same standing.
/// </summary>
public sealed class Convergence
{
    private readonly Random _random;
    private readonly OperationNet _net;
    private readonly TimeSpan[] _skews;
    private readonly bool[] _isOffline;
    private readonly Job[] _devices;
    /// <summary>What the server holds, in order of arrival; it takes only what joins on.</summary>
    private readonly List<Entry> _server = [];
    private readonly List<(int Device, bool IsToServer, IReadOnlyList<Entry> Entries)> _onTheWay = [];
    private long _ticks;

    private Convergence(Map map, int seed)
    {
        _random = new Random(seed);
        _net = OperationNet.From(map);
        var devices = _random.Next(2, 7);
        _skews = [.. Enumerable.Range(0, devices).Select(_ => TimeSpan.FromHours(_random.Next(3) == 0 ? _random.Next(-200, 200) : 0))];
        _isOffline = new bool[devices];
        _devices = [.. _skews.Select(_ => Job.From(_net, []))];
    }

    /// <summary>What went wrong in the history of this seed, or null; and how many entries and questions it had.</summary>
    public static (string? Fault, int Entries, int Questions) Run(Map map, int seed)
    {
        var history = new Convergence(map, seed);
        history.Live(steps: 30 + history._random.Next(50));
        history.MeetAtLast();
        return (history.Fault(), history._server.Count, history._devices[0].Standing.Questions.Count);
    }

    private void Live(int steps)
    {
        Record(0, new JobOpened(_net.Map.Name, "An invented machine", "It leaks", "A seal", [_net.Map.Parts[^1].Id], []));
        Send(0);
        Deliver(_onTheWay.Count - 1);
        for (var step = 0; step < steps; step++)
        {
            var device = _random.Next(_devices.Length);
            switch (_random.Next(10))
            {
                case 0:
                    _isOffline[device] = !_isOffline[device];
                    break;
                case 1:
                    Send(device);
                    break;
                case 2:
                    Fetch(device);
                    break;
                case 3 or 4 when _onTheWay.Count > 0:
                    // Any message in any order, and now and then one twice or never.
                    Deliver(_random.Next(_onTheWay.Count), keep: _random.Next(4) == 0, lose: _random.Next(6) == 0);
                    break;
                default:
                    Act(device);
                    break;
            }
        }
    }

    private void Act(int device)
    {
        if (_devices[device].Entries.Count == 0)
        {
            return;
        }

        var standing = _devices[device].Standing;
        List<Act> acts = [.. PossibleActs.Of(standing)];
        switch (_random.Next(12))
        {
            case 0:
                Record(device, new TakenBack(_devices[device].Entries[_random.Next(_devices[device].Entries.Count)].Id));
                break;
            case 1:
                Record(device, new Agreed("The owner", "in person", $"As spoken of, {_random.Next(3)}"));
                break;
            case 2 when _net.Map.Proofs.Count > 0:
                Record(device, new ProofRecorded(_net.Map.Proofs[_random.Next(_net.Map.Proofs.Count)].Id, (Verdict)_random.Next(3), "as read"));
                break;
            case 3 when standing.Questions.Count > 0:
                Record(device, new Settled(standing.Questions[_random.Next(standing.Questions.Count)].Entry, $"Looked, {_random.Next(3)}"));
                break;
            case 4 when _net.Map.Joints.Count > 0:
                Record(device, new JointStuck(_net.Map.Joints[_random.Next(_net.Map.Joints.Count)].Id, 10, _random.Next(2) == 0, "rusted"));
                break;
            case 5 when _random.Next(8) == 0:
                Record(device, new HandedOver("The owner", new Override("The owner of the shop", "towed away")));
                break;
            default:
                if (acts.Count > 0)
                {
                    Record(device, acts[_random.Next(acts.Count)]);
                }

                break;
        }
    }

    private void Record(int device, Act act)
    {
        _ticks++;
        var randomness = new byte[10];
        BinaryPrimitives.WriteInt64BigEndian(randomness.AsSpan(2), (_ticks << 8) + device);
        var now = new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero).AddMinutes(_ticks) + _skews[device];
        if (_devices[device].Decide(act, new Pen($"device-{device}", $"Person {device}", now, randomness)).Entry is { } entry)
        {
            _devices[device] = _devices[device].With(entry);
        }
    }

    private void Send(int device)
    {
        if (!_isOffline[device])
        {
            _onTheWay.Add((device, true, _devices[device].Entries));
        }
    }

    private void Fetch(int device)
    {
        if (!_isOffline[device])
        {
            // A page need not be the whole of it.
            _onTheWay.Add((device, false, [.. _server.Take(_random.Next(_server.Count) + 1)]));
        }
    }

    private void Deliver(int message, bool keep = false, bool lose = false)
    {
        var (device, isToServer, entries) = _onTheWay[message];
        if (!keep)
        {
            _onTheWay.RemoveAt(message);
        }

        if (lose)
        {
            return;
        }

        if (!isToServer)
        {
            _devices[device] = _devices[device].With(entries);
            return;
        }

        foreach (var entry in entries.OrderBy(e => e.Device, StringComparer.Ordinal).ThenBy(e => e.Seq))
        {
            var before = _server.LastOrDefault(e => e.Device == entry.Device);
            if (!_server.Any(e => e.Id == entry.Id) && Chain.Fault(before, entry) is null)
            {
                _server.Add(entry);
            }
        }
    }

    private void MeetAtLast()
    {
        _onTheWay.Clear();
        foreach (var round in Enumerable.Range(0, 2))
        {
            foreach (var device in Enumerable.Range(0, _devices.Length))
            {
                _isOffline[device] = false;
                Send(device);
                Deliver(0);
                _devices[device] = _devices[device].With(_server);
            }
        }
    }

    private string? Fault()
    {
        if (Chain.Faults(_server).FirstOrDefault() is { } broken)
        {
            return broken.Sentence;
        }

        var expected = Describe.Everything(Fold.Of(_net, _server));
        if (_devices.Index().FirstOrDefault(d => d.Item.Entries.Count != _server.Count || Describe.Everything(d.Item.Standing) != expected) is { Item: not null } other)
        {
            return $"device {other.Index} shows another standing than the server";
        }

        // Counted one by one as they came, and read back from the file, it is the same once more.
        var oneByOne = _server.Aggregate(Job.From(_net, []), (job, entry) => job.With(entry)).Standing;
        var read = LedgerFile.Read(LedgerFile.Write(_server), "server");
        return Describe.Everything(oneByOne) != expected ? "counted one by one it is another standing"
            : read.Fault ?? (Describe.Everything(Fold.Of(_net, read.Entries)) != expected ? "read back from its file it is another standing" : null);
    }
}
