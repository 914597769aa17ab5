using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>Short ways to what a test starts from; a refusal fails the test with its sentence.</summary>
internal static class Given
{
    public static T Fail<T>(string sentence)
    {
        Assert.Fail(sentence);
        throw new InvalidOperationException(sentence);
    }

    public static ScrewThread Thread(string text) => ThreadReader.Read(text).Or(Fail<ScrewThread>);

    public static Strength Strength(string mark, ScrewThread thread) => BoltGrade.Of(mark, thread).Or(Fail<Strength>);

    public static Friction Friction(double low, double high) => Core.Joints.Friction.Between(low, high).Or(Fail<Friction>);

    public static Tightening Bolt(string thread, string mark, double low, double high)
    {
        var read = Thread(thread);
        return new Tightening(read, Strength(mark, read), BearingFace.For(read), Friction(low, high), Friction(low, high));
    }

    public static Stripping Stripping(ScrewThread thread, double engaged_mm, double bolt_MPa, double boss_MPa) =>
        Core.Joints.Stripping.Of(thread, engaged_mm, bolt_MPa, boss_MPa).Or(Fail<Stripping>);

    public static HolePattern Circle(int bolts) => HolePattern.Circle(bolts).Or(Fail<HolePattern>);

    public static HolePattern Holes(params (double X, double Y)[] places) =>
        HolePattern.From([.. places.Select((place, i) => new Hole($"{i + 1}", place.X, place.Y))]).Or(Fail<HolePattern>);
}
