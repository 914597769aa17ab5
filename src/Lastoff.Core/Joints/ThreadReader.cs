using System.Globalization;
using System.Text.RegularExpressions;

namespace Lastoff.Core.Joints;

/// <summary>Reads a thread as a map or a mechanic writes it: M8, M8x1.25, 3/8-16 UNC, 1/4-20, #10-32.</summary>
public static partial class ThreadReader
{
    public static Answer<ScrewThread> Read(string text)
    {
        var trimmed = text.Trim();
        if (FormsItsOwn().IsMatch(trimmed.AsSpan()))
        {
            return Answer.None<ScrewThread>($"“{trimmed}” forms or cuts its own thread: no formula gives its tightness, so only the maker's figure serves.");
        }

        if (Metric().Match(trimmed) is { Success: true } metric)
        {
            return ReadMetric(trimmed, Number(metric.Groups["d"].Value), metric.Groups["p"] is { Success: true, Value: var pitch } ? Number(pitch) : null);
        }

        if (Unified().Match(trimmed) is { Success: true } unified)
        {
            return ReadUnified(trimmed, unified.Groups["size"].Value, unified.Groups["tpi"].Value, unified.Groups["series"].Value.ToUpperInvariant());
        }

        return Answer.None<ScrewThread>($"“{trimmed}” is not a thread this can compute with; write it like M8, M8x1.25, 3/8-16 UNC or #10-32.");
    }

    private static Answer<ScrewThread> ReadMetric(string text, double diameter, double? pitch)
    {
        var threads = ThreadTable.OfDiameter(diameter);
        if (threads.Count == 0)
        {
            return Answer.None<ScrewThread>($"{text}: the metric series has no M{ScrewThread.Text(diameter)} between M1.6 and M64; look at the size again.");
        }

        return (pitch is null ? threads[0] : threads.FirstOrDefault(t => t.Pitch_mm == pitch)) is { } thread
            ? Answer.Of(thread)
            : Answer.None<ScrewThread>($"{text}: M{ScrewThread.Text(diameter)} is made with a pitch of {List(threads.Select(t => ScrewThread.Text(t.Pitch_mm)))} mm, not {ScrewThread.Text(pitch!.Value)}; leave a length out, and look at the pitch again.");
    }

    private static Answer<ScrewThread> ReadUnified(string text, string size, string threadsPerInch, string series)
    {
        var spoken = size.Replace('-', ' ');
        var threads = new[] { spoken, "#" + spoken }.SelectMany(ThreadTable.OfSize)
            .Where(t => threadsPerInch.Length == 0 || t.Designation.Contains($"-{threadsPerInch} ", StringComparison.Ordinal))
            .ToArray();
        var named = threads.Where(t => series.Length == 0 || t.Designation.EndsWith(series, StringComparison.Ordinal)).ToArray();
        return named switch
        {
            [var thread] => Answer.Of(thread),
            [var one, ..] => Answer.None<ScrewThread>($"{text}: this may be {List(named.Select(t => t.Designation))}; write the threads per inch, as {one.Designation}."),
            [] when threads is [var other, ..] => Answer.None<ScrewThread>($"{text}: this size and count is {other.Designation}, not {series}; look at the thread again."),
            _ => Answer.None<ScrewThread>($"{text}: neither UNC nor UNF has this size and count; look at the thread again."),
        };
    }

    private static double Number(string digits) => double.Parse(digits, CultureInfo.InvariantCulture);

    private static string List(IEnumerable<string> words) => string.Join(" or ", words);

    [GeneratedRegex(@"self.?tapping|thread.?(forming|cutting|rolling)|sheet.?metal|wood|\bST\d|into plastic", RegexOptions.IgnoreCase)]
    private static partial Regex FormsItsOwn();

    // A tolerance class or LH may follow; neither changes the strength.
    [GeneratedRegex(@"^M\s*(?<d>\d{1,3}(\.\d{1,3})?)(\s*[x×]\s*(?<p>\d{1,3}(\.\d{1,3})?))?(\s*-?\s*LH)?(\s*-\s*(\d[a-z]){1,2}(/(\d[a-z]){1,2})?)?$", RegexOptions.IgnoreCase)]
    private static partial Regex Metric();

    [GeneratedRegex(@"^(?<size>#?\d{1,2}|\d{1,2}/\d{1,2}|\d[ -]\d/\d)(\s*in(ch)?|"")?(\s*-\s*(?<tpi>\d{1,2}))?(\s*-?\s*(?<series>UNC|UNF))?(\s*-\s*\d[AB])?$", RegexOptions.IgnoreCase)]
    private static partial Regex Unified();
}
