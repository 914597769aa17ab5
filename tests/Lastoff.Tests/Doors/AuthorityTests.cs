using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Lastoff.Bench;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Doors;

/// <summary>HTTPS on the workshop's own network: whoever trusts the authority reaches the server, and nobody has to trust it blindly.</summary>
public sealed class AuthorityTests : IDisposable
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private readonly string _data = Directory.CreateTempSubdirectory("lastoff-").FullName;

    public void Dispose() => Directory.Delete(_data, recursive: true);

    [Fact]
    public async Task A_client_that_trusts_the_authority_reaches_the_server_by_its_names_and_one_that_does_not_refuses_it()
    {
        var secure = ServerProcess.FreePort();
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", _data) { Also = [$"https://localhost:{secure}"] };
        using var client = new HttpClient { BaseAddress = server.Address };
        await server.StartAsync();
        var certificate = await client.GetByteArrayAsync("/trust/authority.crt", Cancel);
        using var authority = X509CertificateLoader.LoadCertificate(certificate);
        var page = await client.GetStringAsync("/trust", Cancel);
        var fingerprint = string.Join(' ', authority.GetCertHashString(HashAlgorithmName.SHA256).Chunk(4).Select(four => new string(four)));
        Assert.Contains(fingerprint, page);
        Assert.Contains(server.Printed, line => line.Contains(fingerprint, StringComparison.Ordinal));

        foreach (var name in new[] { "localhost", "127.0.0.1" })
        {
            Assert.Equal(SslPolicyErrors.None, await Fault(name, secure, authority));
        }

        Assert.Equal(SslPolicyErrors.RemoteCertificateNameMismatch, await Fault("elsewhere.example", secure, authority));
        Assert.True((await Fault("localhost", secure, null)).HasFlag(SslPolicyErrors.RemoteCertificateChainErrors));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path.Combine(_data, "authority.pem")));
        }

        // Started again, it is the same authority: no phone has to trust anything anew.
        await server.StopAsync();
        await server.StartAsync();
        Assert.Equal(certificate, await client.GetByteArrayAsync("/trust/authority.crt", Cancel));
    }

    [Fact]
    public async Task A_broken_authority_or_certificate_is_one_sentence()
    {
        await File.WriteAllTextAsync(Path.Combine(_data, "authority.pem"), "not a certificate", Cancel);
        var ran = await LastoffProgram.Run("serve", "--urls", $"https://localhost:{ServerProcess.FreePort()}", "--data", _data);
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains("authority.pem is no certificate with its key any more", ran.Error);
        Assert.Single(ran.Error.Trim().Split('\n'));
        ran = await LastoffProgram.Run("serve", "--urls", $"https://localhost:{ServerProcess.FreePort()}", "--data", _data, "--certificate", Path.Combine(_data, "nothing.pem"));
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains("--certificate", ran.Error);
    }

    /// <summary>What a client has against the server's certificate under this name.</summary>
    private static async Task<SslPolicyErrors> Fault(string name, int port, X509Certificate2? trusted)
    {
        using var connection = new TcpClient();
        await connection.ConnectAsync(IPAddress.Loopback, port, Cancel);
        var fault = SslPolicyErrors.RemoteCertificateNotAvailable;
        await using var tls = new SslStream(connection.GetStream());
        await tls.AuthenticateAsClientAsync(new SslClientAuthenticationOptions
        {
            TargetHost = name,
            CertificateChainPolicy = trusted is null ? null : new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, CustomTrustStore = { trusted }, RevocationMode = X509RevocationMode.NoCheck },
            RemoteCertificateValidationCallback = (_, _, _, found) =>
            {
                fault = found;
                return true;
            },
        }, Cancel);
        return fault;
    }
}
