using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.App.Words;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>The lines of all jobs on this device. A line of last time stands while nothing has changed that it was read from, and neither entries nor map are read: the list is there at once, however many jobs there are.</summary>
public sealed class JobLines(Store store, MapShelf maps)
{
    /// <summary>The program, the language and the time here: another one says the same otherwise, and may not understand what was kept.</summary>
    private static string Writer => $"{typeof(JobLine).Module.ModuleVersionId} {typeof(Job).Module.ModuleVersionId} {Speech.Language} {LocalTime.Now.Offset}\n";

    /// <summary>The newest first.</summary>
    /// <param name="soFar">Told of the lines as they come, where some must be read anew.</param>
    public async Task<IReadOnlyList<JobLine>> ReadAsync(Action<IReadOnlyList<JobLine>> soFar)
    {
        var (lines, unread) = (new List<JobLine>(), new List<KeptJob>());
        foreach (var shown in await store.ShownJobsAsync())
        {
            if (Kept(shown) is { } line)
            {
                lines.Add(line);
            }
            else
            {
                unread.Add(shown.Job);
            }
        }

        foreach (var job in unread)
        {
            if (lines.Count > 0)
            {
                soFar(InOrder(lines));
            }

            if (await JobLine.ReadAsync(job, store, maps) is not { } line)
            {
                continue;
            }

            lines.Add(line);
            try
            {
                if (line.Source is not null)
                {
                    await store.KeepLineAsync(job, Writer + JsonSerializer.Serialize(line, AppJson.Default.JobLine));
                }
            }
            catch (JSException)
            {
                // A full device shows its list all the same, only not as quickly.
            }
        }

        return InOrder(lines);
    }

    private static JobLine? Kept(ShownJob shown) =>
        shown.Line is { } kept && kept.StartsWith(Writer, StringComparison.Ordinal)
            && JsonSerializer.Deserialize(kept[Writer.Length..], AppJson.Default.JobLine) is { Source: { } source } line && source.IsStill(shown.Count, LocalTime.Now)
            ? line
            : null;

    private static IReadOnlyList<JobLine> InOrder(IEnumerable<JobLine> lines) => [.. lines.OrderByDescending(line => line.LastAt)];
}
