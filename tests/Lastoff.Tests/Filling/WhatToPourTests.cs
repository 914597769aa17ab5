using Lastoff.Core.Filling;

namespace Lastoff.Tests.Filling;

public class WhatToPourTests
{
    [Theory]
    [InlineData(null, Outflow.AsUsual)]
    [InlineData(1.1, Outflow.AsUsual)]
    [InlineData(1.2, Outflow.AsUsual)]
    [InlineData(1.3, Outflow.TooMuch)]
    [InlineData(0.9, Outflow.TooLittle)]
    public void What_came_out_does_not_change_what_goes_in(double? cameOut, Outflow says) =>
        Assert.Equal((1.1, says), WhatToPour.Of(1.2, 0.1, cameOut) is var pour ? (Math.Round(pour.Litres, 3), pour.Outflow) : default);
}
