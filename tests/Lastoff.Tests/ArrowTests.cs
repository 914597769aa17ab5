using System.Xml.Linq;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using NetArchTest.Rules;

namespace Lastoff.Tests;

/// <summary>Who may know whom: the app and the program know the core, the core knows nobody, and the ledger does not know the planner.</summary>
public class ArrowTests
{
    [Theory]
    [InlineData("Lastoff.Core", "")]
    [InlineData("Lastoff.App", "Lastoff.Core")]
    [InlineData("Lastoff", "Lastoff.App Lastoff.Core")]
    public void Projects_know_only_whom_they_may(string project, string known)
    {
        var file = Path.Combine(LastoffProgram.Repository, "src", project, project + ".csproj");
        var references = XDocument.Load(file).Descendants("ProjectReference")
            .Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value)).Order();
        Assert.Equal(known, string.Join(' ', references));
    }

    [Theory]
    [InlineData("Maps", "Lastoff.Core.Ledger")]
    [InlineData("Maps", "Lastoff.Core.Planning")]
    [InlineData("Ledger", "Lastoff.Core.Planning")]
    [InlineData("Ledger", "Lastoff.Core.Papers")]
    [InlineData("Planning", "Lastoff.Core.Papers")]
    [InlineData("Pricing", "Lastoff.Core.Papers")]
    [InlineData("Joints", "Lastoff.Core.Maps")]
    public void Folders_of_the_core_know_only_whom_they_may(string folder, string unknown)
    {
        var result = Types.InAssembly(typeof(Map).Assembly).That().ResideInNamespace($"Lastoff.Core.{folder}")
            .ShouldNot().HaveDependencyOn(unknown).GetResult();
        Assert.True(result.IsSuccessful, string.Join(", ", result.FailingTypeNames ?? []));
    }
}
