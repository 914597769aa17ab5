using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

public class PassReaderTests
{
    private static readonly int[] Order = [0, 2, 1];
    private static readonly int[] Round = [0, 1, 2];

    [Fact]
    public void Passes_are_read_as_they_are_written_and_the_last_round_goes_from_bolt_to_bolt()
    {
        var passes = PassReader.Read(["snug", "30 %", "62.5%", "100 %", "round"], Order, Round).Or(Given.Fail<IReadOnlyList<Pass>>);
        Assert.Equal([PassKind.Snug, PassKind.Share, PassKind.Share, PassKind.Share, PassKind.OnceRound], passes.Select(pass => pass.Kind));
        Assert.Equal([null, 0.3, 0.625, 1, 1], passes.Select(pass => pass.Share));
        Assert.All(passes.SkipLast(1), pass => Assert.Equal(Order, pass.Order));
        Assert.Equal(Round, passes[^1].Order);
        Assert.Equal(["snug", "30 %", "62.5 %", "100 %", "once round"], passes.Select(pass => pass.Short));
        Assert.Equal(25, passes[2].At(Torque.FromNewtonMetres(40))!.Value.NewtonMetres);
        Assert.Null(passes[0].At(Torque.FromNewtonMetres(40)));
    }

    [Fact]
    public void Torque_and_angle_is_the_torque_and_then_the_turns()
    {
        var passes = PassReader.Read(["snug", "100 %", "90 deg", "45°"], Order, Round).Or(Given.Fail<IReadOnlyList<Pass>>);
        Assert.Equal([null, null, 90, 45], passes.Select(pass => pass.Angle_deg));
        Assert.Null(passes[2].At(Torque.FromNewtonMetres(20)));
    }

    [Theory]
    [InlineData("is not a pass", "tight")]
    [InlineData("is not a pass", "50 N·m")]
    [InlineData("empty")]
    [InlineData("in this order", "100 %", "snug")]
    [InlineData("in this order", "90 deg", "100 %")]
    [InlineData("in this order", "100 %", "round", "round")]
    [InlineData("rise to 100 %", "50 %")]
    [InlineData("rise to 100 %", "60 %", "30 %", "100 %")]
    [InlineData("rise to 100 %", "0 %", "100 %")]
    [InlineData("rise to 100 %", "50 %", "120 %")]
    [InlineData("not between 0° and 360°", "100 %", "400 deg")]
    [InlineData("last round", "100 %", "90 deg", "round")]
    [InlineData("last round", "snug", "round")]
    [InlineData("never reach", "snug")]
    public void Passes_that_cannot_be_get_a_sentence(string says, params string[] words)
    {
        var answer = PassReader.Read(words, Order, Round);
        Assert.False(answer.Found);
        Assert.Contains(says, answer.Sentence, StringComparison.Ordinal);
    }
}
