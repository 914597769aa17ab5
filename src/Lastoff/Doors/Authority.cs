using System.Net;
using System.Net.NetworkInformation;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Lastoff.Doors;

/// <summary>The workshop's own certificate authority, for HTTPS on its own network. Whoever trusts it trusts this workshop's server and nothing else.</summary>
public sealed class Authority
{
    private const string FileName = "authority.pem";
    private const string ServerUse = "1.3.6.1.5.5.7.3.1";

    // Phones take no server certificate that lives longer (CA/Browser Forum baseline requirements, section 6.3.2: 398 days; from memory), and a new one is made at every start.
    private static readonly TimeSpan ServerLife = TimeSpan.FromDays(397);
    private static readonly TimeSpan OwnLife = TimeSpan.FromDays(3650);

    private readonly X509Certificate2 _own;

    private Authority(X509Certificate2 own) => _own = own;

    /// <summary>Its certificate, without the key, as phones take it in.</summary>
    public byte[] Certificate => _own.Export(X509ContentType.Cert);

    /// <summary>SHA-256 of the certificate in pairs of letters, to be compared by eye.</summary>
    public string Fingerprint => string.Join(' ', _own.GetCertHashString(HashAlgorithmName.SHA256).Chunk(4).Select(four => new string(four)));

    /// <summary>Reads the authority of a data folder, or makes it. Its key never leaves the folder.</summary>
    /// <exception cref="InvalidDataException">The file there is no authority any more.</exception>
    public static Authority Of(string folder, DateTimeOffset now)
    {
        var file = Path.Combine(folder, FileName);
        if (!File.Exists(file))
        {
            var made = Make(now);
            Directory.CreateDirectory(folder);
            var onlyMine = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                onlyMine.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }

            using var writer = new StreamWriter(new FileStream(file + ".new", onlyMine));
            writer.Write(made.ExportCertificatePem() + "\n" + made.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem() + "\n");
            writer.Close();
            File.Move(file + ".new", file);
        }

        try
        {
            return new Authority(X509Certificate2.CreateFromPemFile(file));
        }
        catch (CryptographicException e)
        {
            throw new InvalidDataException($"{file} is no certificate with its key any more ({e.Message.TrimEnd('.')}); move it away to have a new one made, which every phone then has to trust anew", e);
        }
    }

    /// <summary>A certificate for this machine by all its names and addresses.</summary>
    public X509Certificate2 ForThisMachine(DateTimeOffset now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=Lastoff", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        names.AddIpAddress(IPAddress.Loopback);
        names.AddIpAddress(IPAddress.IPv6Loopback);
        var host = Dns.GetHostName();
        foreach (var name in new[] { host, host.Split('.')[0] + ".local" }.Where(name => Uri.CheckHostName(name) == UriHostNameType.Dns && name != "localhost").Distinct())
        {
            names.AddDnsName(name);
        }

        foreach (var address in NetworkInterface.GetAllNetworkInterfaces().SelectMany(card => card.GetIPProperties().UnicastAddresses).Select(unicast => unicast.Address))
        {
            if (!IPAddress.IsLoopback(address) && !address.IsIPv6LinkLocal)
            {
                names.AddIpAddress(address);
            }
        }

        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(false, false, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(ServerUse)], false));
        request.CertificateExtensions.Add(X509AuthorityKeyIdentifierExtension.CreateFromCertificate(_own, true, false));
        var until = now + ServerLife < _own.NotAfter ? now + ServerLife : _own.NotAfter;
        using var signed = request.Create(_own, now.AddHours(-1), until, RandomNumberGenerator.GetBytes(16));
        using var whole = signed.CopyWithPrivateKey(key);
        // Servers on some systems only take a key that was read from a file.
        return X509CertificateLoader.LoadPkcs12(whole.Export(X509ContentType.Pkcs12), null);
    }

    private static X509Certificate2 Make(DateTimeOffset now)
    {
        var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest($"CN=Lastoff on {Dns.GetHostName()}", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, true, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign, true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(ServerUse)], false));
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(request.PublicKey, false));
        return request.CreateSelfSigned(now.AddHours(-1), now + OwnLife);
    }
}
