using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.App.Exchange;

/// <summary>Why the server would not: the problem details of RFC 9457.</summary>
public static class Problem
{
    /// <summary>Its one sentence; null when something between here and the server answered in its own way.</summary>
    public static string? Detail(string answer)
    {
        try
        {
            return (string?)JsonNode.Parse(answer)?["detail"];
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }
}
