using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Server.Certificates;

/// <summary>A certificate that somebody else made and renews: two PEM files, read again when they change.</summary>
internal sealed class GivenCertificate(FileInfo certificate, FileInfo key, string publicHost)
{
    private DateTime _read;
    private ServedCertificate? _served;

    /// <summary>Why it cannot be used, or nothing.</summary>
    public Remark? Prepare(Instant now)
    {
        try
        {
            var served = Current();
            if (!served.Certificate.MatchesHostname(publicHost))
            {
                return new Remark(
                    "certificate-other-name",
                    new Argument("file", certificate.FullName),
                    new Argument("name", publicHost)
                );
            }

            return Instant.FromDateTimeUtc(served.Certificate.NotAfter.ToUniversalTime()) <= now
                ? new Remark("certificate-ended", new Argument("file", certificate.FullName))
                : null;
        }
        catch (Exception trouble)
            when (trouble is IOException or UnauthorizedAccessException or CryptographicException)
        {
            return new Remark(
                "certificate-unreadable",
                new Argument("file", certificate.FullName),
                new Argument("key", key.FullName),
                new Argument("message", trouble.Message)
            );
        }
    }

    /// <summary>The certificate as it lies on the disk now, with those that stand between it and its authority.</summary>
    public ServedCertificate Current()
    {
        var written = File.GetLastWriteTimeUtc(certificate.FullName);
        if (_served is null || written != _read)
        {
            var text = File.ReadAllText(certificate.FullName);
            var own = X509Certificate2.CreateFromPem(text, File.ReadAllText(key.FullName));
            var all = new X509Certificate2Collection();
            all.ImportFromPem(text);
            _served = new(own, [.. all.Where(one => one.Thumbprint != own.Thumbprint)]);
            _read = written;
        }

        return _served;
    }
}
