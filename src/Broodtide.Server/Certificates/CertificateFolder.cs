using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using NodaTime;

namespace Broodtide.Server.Certificates;

/// <summary>
/// The house's authority and its server's certificate on the disk, each in one file with its key, readable by the
/// server's account alone.
/// </summary>
internal sealed class CertificateFolder(DirectoryInfo data)
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private string Folder => Path.Combine(data.FullName, "certificates");

    /// <summary>The authority with its key.</summary>
    public string AuthorityFile => Path.Combine(Folder, "authority.pem");

    /// <summary>The server's certificate with its key.</summary>
    public string ServerFile => Path.Combine(Folder, "server.pem");

    /// <summary>The authority with its key, or none yet.</summary>
    public X509Certificate2? Authority() => Read(AuthorityFile);

    /// <summary>The server's certificate with its key, or none yet.</summary>
    public X509Certificate2? Server() => Read(ServerFile);

    /// <summary>Makes a new authority in place of the old one, whose key is gone afterwards.</summary>
    public X509Certificate2 NewAuthority(HouseNames names, Instant now)
    {
        var authority = CertificateMaking.Authority(names, now);
        Write(AuthorityFile, authority);
        return authority;
    }

    /// <summary>Makes a new certificate for the server in place of the old one.</summary>
    public X509Certificate2 NewServer(X509Certificate2 authority, HouseNames names, Instant now)
    {
        var server = CertificateMaking.Server(authority, names, now);
        Write(ServerFile, server);
        return server;
    }

    /// <summary>The names that a certificate of a server carries.</summary>
    public static HouseNames NamesOf(X509Certificate2 server)
    {
        var names = server.Extensions.OfType<X509SubjectAlternativeNameExtension>().FirstOrDefault();
        return names is null
            ? new([], [])
            : new([.. names.EnumerateDnsNames()], [.. names.EnumerateIPAddresses()]);
    }

    private static X509Certificate2? Read(string file)
    {
        if (!File.Exists(file))
        {
            return null;
        }

        var text = File.ReadAllText(file);
        return X509Certificate2.CreateFromPem(text, text);
    }

    private void Write(string file, X509Certificate2 certificate)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(Folder);
        }
        else
        {
            Directory.CreateDirectory(Folder, OwnerOnly | UnixFileMode.UserExecute);
        }

        using var key =
            certificate.GetECDsaPrivateKey()
            ?? throw new CryptographicException("The certificate has no key.");
        var text = certificate.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem() + "\n";
        // Whole or not at all: a power cut leaves the old file or the new one.
        var fresh = file + ".new";
        File.Delete(fresh);
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.None,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        using (var stream = new FileStream(fresh, options))
        {
            stream.Write(Encoding.ASCII.GetBytes(text));
            stream.Flush(flushToDisk: true);
        }

        File.Move(fresh, file, overwrite: true);
    }
}
