using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using NodaTime;

namespace Broodtide.Server.Certificates;

/// <summary>
/// The certificate shown to whoever connects now. It is looked at again once a minute, so that a file replaced or
/// renewed meanwhile is taken without a restart.
/// </summary>
internal sealed class LiveCertificate(IClock clock, ILogger log, Func<Instant, ServedCertificate> look)
{
    private static readonly Duration LookAgain = Duration.FromMinutes(1);

    private readonly Lock _gate = new();
    private ServedCertificate? _shown;
    private SslStreamCertificateContext? _context;
    private Instant _lookedAt;

    /// <summary>The certificate for a connection that begins now.</summary>
    public SslStreamCertificateContext Now()
    {
        lock (_gate)
        {
            var now = clock.GetCurrentInstant();
            if (_context is null || now - _lookedAt >= LookAgain || now < _lookedAt)
            {
                Look(now);
            }

            return _context!;
        }
    }

    private void Look(Instant now)
    {
        _lookedAt = now;
        try
        {
            var found = look(now);
            if (_shown?.Certificate.Thumbprint != found.Certificate.Thumbprint)
            {
                _context = SslStreamCertificateContext.Create(found.Certificate, found.Chain, offline: true);
                _shown = found;
            }
        }
        catch (Exception trouble)
            when (_context is not null
                && trouble is IOException or UnauthorizedAccessException or CryptographicException
            )
        {
            // Better the old one for a while than nobody in.
            log.CertificateNotTaken(trouble);
        }
    }
}

/// <summary>A certificate with its key, and the certificates between it and its authority.</summary>
internal sealed record ServedCertificate(X509Certificate2 Certificate, X509Certificate2Collection Chain);

/// <summary>What is written down about certificates.</summary>
internal static partial class CertificateLog
{
    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "The certificate could not be renewed or read; the old one is shown on."
    )]
    public static partial void CertificateNotTaken(this ILogger log, Exception trouble);
}
