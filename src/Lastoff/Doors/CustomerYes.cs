using System.Security.Cryptography;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Papers;
using Lastoff.Storing;

namespace Lastoff.Doors;

/// <summary>Writes down the yes that a customer gave on the page of their link. The server has a chain of its own in such a job, as a device has.</summary>
internal sealed class CustomerYes(Workshop workshop, WorkshopPapers papers, TimeProvider clock)
{
    private const int MostTries = 5;

    /// <summary>Null once it is on the disk, or there is nothing more to say yes to; else why it is not.</summary>
    /// <param name="name">Who says yes.</param>
    /// <param name="sha256">The price that stood on the page.</param>
    /// <exception cref="StoreAwayException">Nothing was taken, or it is not known; sending it again is right in both cases.</exception>
    public async Task<string?> WriteAsync(Guid id, string name, string sha256, bool wantsOldParts)
    {
        if (ConsentForm.NameFault(name) is { } fault)
        {
            return fault;
        }

        // The workshop may write another entry at the same moment, and then this one is decided anew.
        for (var tries = 0; tries < MostTries; tries++)
        {
            if (await papers.JobAsync(id) is not { } job || ConsentForm.For(job.Standing) is null || job.Standing.LatestPrice is not { } price)
            {
                return null;
            }

            if (price.Priced.Sha256 != sha256)
            {
                return "The workshop has made another price meanwhile: it stands above. Look at it, and say yes to that.";
            }

            var net = job.Net;
            var goal = string.Join(", ", job.Standing.GoalParts.Select(part => net.Parts[part].Name).Concat(job.Standing.GoalJoints.Select(joint => net.Joints[joint].Name)).Order(StringComparer.Ordinal));
            var decision = job.Decide(
                new Agreed(name.Trim(), Agreed.ByLink, AgreedPrice.Instead(job.Standing) ?? (goal.Length > 0 ? $"The estimate: {goal}" : "The estimate"))
                {
                    Price = AgreedPrice.To(price),
                    OldPartsBack = job.Standing.GoalParts.Count > 0 ? wantsOldParts : null,
                },
                new Pen($"link-{workshop.Entries.Store()}", "The customer, by link", clock.GetLocalNow(), RandomNumberGenerator.GetBytes(10)));
            if (decision.Entry is not { } entry)
            {
                return decision.Refusal!.Sentence;
            }

            if ((await workshop.Entries.TakeAsync(id, [entry.Line])).Accepted.Contains(entry.Id))
            {
                return null;
            }
        }

        return "It could not be written down just now; try again in a moment.";
    }
}
