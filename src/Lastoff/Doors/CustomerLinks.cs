using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace Lastoff.Doors;

/// <summary>Links that open one job's record to somebody outside, for some days. They are signed, so none can be guessed or lengthened.</summary>
public sealed class CustomerLinks(IDataProtectionProvider protection)
{
    public static readonly TimeSpan Life = TimeSpan.FromDays(30);

    private readonly ITimeLimitedDataProtector _signer = protection.CreateProtector("customer record").ToTimeLimitedDataProtector();

    public string For(Guid job, DateTimeOffset until) => _signer.Protect(job.ToString(), until);

    /// <summary>The job a link opens; null when it is not one of ours, or its time is over.</summary>
    public Guid? Job(string link)
    {
        try
        {
            return Guid.Parse(_signer.Unprotect(link));
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
