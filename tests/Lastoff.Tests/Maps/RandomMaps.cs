using CsCheck;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>Random maps in which every part can come off: layers from the outside in, where only what lies further out is ever in the way.</summary>
public static class RandomMaps
{
    /// <summary>Maps with at most this many operations and at least one part. A proof, an opening or a renewal is no operation.</summary>
    public static Gen<Map> UpTo(int operations) =>
        Gen.Byte.Array[0, 12 * operations].Select(bytes => Build(new Choices(bytes), operations));

    /// <summary>The same, and some of their supplies run on by themselves and some of their joints have to cure.</summary>
    public static Gen<Map> Waiting(int operations) =>
        Gen.Byte.Array[0, 12 * operations].Select(bytes => Build(new Choices(bytes), operations, waits: true));

    public static Map Build(Choices choices, int operations, bool waits = false)
    {
        var layers = new Layers(choices, operations, waits);
        layers.Fill();
        return new Map
        {
            Name = "random",
            Title = "Random map",
            Invented = true,
            SetUp = choices.Of([SetUpMinutes.Usual, new SetUpMinutes(0.3, 0, 0), new SetUpMinutes(0, 1.1, 3), new SetUpMinutes(1, 1, 1)]),
            Supplies = layers.Supplies,
            Parts = layers.Parts,
            Joints = layers.Joints,
            Openings = layers.Openings,
            Renewals = layers.Renewals,
            Proofs = layers.Proofs,
        };
    }

    private sealed class Layers(Choices choices, int budget, bool waits)
    {
        private static readonly Tool[] Tools =
        [
            Tool.Hand, new("ratchet 1/4 in", "hex 10 mm"), new("ratchet 1/4 in", "star 25"), new("ratchet 3/8 in", "hex 13 mm"), new("pliers", null),
        ];

        private static readonly Position[] Sides = [Position.Above, Position.Below, Position.Front, Position.Left];

        private int _left = budget;

        public List<Supply> Supplies { get; } = [];
        public List<Part> Parts { get; } = [];
        public List<Joint> Joints { get; } = [];
        public List<Opening> Openings { get; } = [];
        public List<Renewal> Renewals { get; } = [];
        public List<Proof> Proofs { get; } = [];

        /// <summary>Outside in: whatever is added may be held up only by what is there already, so no map is ever stuck.</summary>
        public void Fill()
        {
            do
            {
                if (_left > 1 && choices.OneIn(6))
                {
                    AddSupply();
                }

                AddPart();
            }
            while (_left > 0 && choices.Next(12) > 0);

            for (var extras = choices.Next(4); extras > 0; extras--)
            {
                AddDues();
            }
        }

        private void AddSupply()
        {
            _left--;
            var id = $"supply-{Supplies.Count + 1}";
            Supplies.Add(new Supply
            {
                Id = id,
                Name = $"Supply {Supplies.Count + 1}",
                Kind = choices.Of(Enum.GetValues<SupplyKind>()),
                At = choices.Of(Sides),
                Tool = choices.Of(Tools),
                SafeMinutes = Minutes(),
                RunsMinutes = Wait(),
                RestoreMinutes = Minutes(),
                Needs = SomeSupplies(),
                Reach = SomeReach(),
            });
        }

        private void AddPart()
        {
            _left--;
            var number = Parts.Count + 1;
            var id = $"part-{number}";
            var reach = SomeReach();
            var joints = Math.Min(_left, choices.Next(4));
            var leaves = new List<string>();
            var canLieAside = joints < _left && choices.OneIn(3);
            _left -= joints + (canLieAside ? 1 : 0);
            for (var i = 0; i < joints; i++)
            {
                var left = canLieAside && choices.OneIn(2);
                var joint = AddJoint(id, $"joint-{number}-{i + 1}", behindIt: left && choices.OneIn(3));
                if (left)
                {
                    leaves.Add(joint.Id);
                }
            }

            Parts.Add(new Part
            {
                Id = id,
                Name = $"Part {number}",
                At = choices.Of(Sides),
                Tool = choices.Of(Tools),
                OffMinutes = Minutes(),
                OnMinutes = Minutes(),
                Reach = reach,
                Aside = canLieAside ? new Aside(leaves, Minutes(), Minutes()) : null,
                RidesOn = Parts.Count > 0 && choices.OneIn(6) ? choices.Of(Parts).Id : null,
            });
        }

        /// <summary>A joint that lies behind its own part is got at once the part is aside; such a part leaves it made.</summary>
        private Joint AddJoint(string part, string id, bool behindIt)
        {
            var reach = SomeReach();
            var count = 1 + choices.Next(4);
            var joint = new Joint
            {
                Id = id,
                Name = id.Replace("joint-", "Joint "),
                Kind = choices.Of(Enum.GetValues<JointKind>()),
                Count = count,
                Holds = Parts.Count > 0 && choices.OneIn(6) && !behindIt ? [part, .. Others()] : [part],
                Captive = choices.OneIn(4),
                OneTime = choices.OneIn(4),
                Clean = choices.OneIn(4),
                At = choices.Of(Sides),
                Tool = choices.Of(Tools),
                UndoMinutes = Minutes(),
                MakeMinutes = Minutes(),
                CuresMinutes = Wait(),
                Torque = Torque.FromNewtonMetres(20),
                Tighten = choices.OneIn(5) ? SomePasses(count) : null,
                Needs = SomeSupplies(),
                Risk = choices.OneIn(4) ? SomeRisk() : null,
                Reach = behindIt ? reach with { Clear = [.. reach.Clear, part] } : reach,
            };
            Joints.Add(joint);
            return joint;

            // A joint that also holds a part further out must itself be free of that part and of all that lies behind it.
            IEnumerable<string> Others() =>
                reach == Reach.Free && Supplies.Count == 0 ? [choices.Of(Parts).Id] : [];
        }

        private void AddDues()
        {
            List<string> targets = [.. Parts.Select(p => p.Id), .. Joints.Select(j => j.Id)];
            var number = Openings.Count + Renewals.Count + Proofs.Count + 1;
            switch (choices.Next(3))
            {
                case 0:
                    Openings.Add(new Opening($"opening-{number}", $"Opening {number}", choices.Of(targets), "cap", Minutes(), 0));
                    break;
                case 1:
                    Renewals.Add(new Renewal($"renewal-{number}", $"Renewal {number}", choices.Of(Enum.GetValues<RenewalKind>()),
                        choices.Of([.. targets, .. Supplies.Select(s => s.Id)]), 1 + choices.Next(3), "", 0));
                    break;
                default:
                    Proofs.Add(new Proof($"proof-{number}", $"Proof {number}", choices.Of(Enum.GetValues<ProofKind>()),
                        choices.Of([.. targets, .. Supplies.Select(s => s.Id)]), Minutes(), null, 0));
                    break;
            }
        }

        private Reach SomeReach() => choices.Next(4) switch
        {
            0 => Reach.Free,
            1 => new Reach(SomeParts(), [], []),
            2 => new Reach(SomeParts(), SomeParts(), []),
            _ => new Reach(SomeParts(), [], [SomeWay(), SomeWay()]),
        };

        private ReachWay SomeWay() => new(
            SomeParts(),
            choices.OneIn(4) ? SomeParts() : [],
            choices.OneIn(3) ? choices.Of(Sides) : null,
            choices.OneIn(3) ? choices.Of(Tools) : null,
            choices.Of([1.0, 1.5, 2, 3]),
            0,
            choices.OneIn(4) ? SomeRisk() : null);

        private Tightness SomePasses(int count)
        {
            int[] order = [.. Enumerable.Range(0, count)];
            string[] words = choices.Of<string[]>([["100 %"], ["snug", "50 %", "100 %", "round"], ["100 %", "90 deg"]]);
            return new Tightness { Order = order, Passes = PassReader.Read(words, order, order).Value! };
        }

        private Risk SomeRisk() => new(choices.Of([0, 0.05, 0.3, 1]), 10 * Minutes(), "it breaks");

        /// <summary>Up to two of the latest three parts, so that maps grow deep rather than wide.</summary>
        private IReadOnlyList<string> SomeParts()
        {
            var near = Parts.TakeLast(3).Select(p => p.Id).ToList();
            return near.Count == 0 ? [] : [.. Enumerable.Range(0, choices.Next(3)).Select(_ => choices.Of(near)).Distinct()];
        }

        private IReadOnlyList<string> SomeSupplies() =>
            Supplies.Count > 0 && choices.OneIn(3) ? [choices.Of(Supplies).Id] : [];

        private double Wait() => waits && choices.OneIn(3) ? 5 * Minutes() : 0;

        private double Minutes() => choices.Next(40) / 10.0;
    }
}
