using System.Net;

namespace Broodtide.Server.Opening;

/// <summary>How the server is opened to the network of the house.</summary>
/// <param name="Address">By which names it is reached.</param>
/// <param name="Proxies">
/// Whose word about the caller is taken; none where phones come straight to the server. With proxies the server
/// itself listens on this machine only.
/// </param>
/// <param name="Given">A certificate that somebody else made; none where the house vouches for itself.</param>
/// <param name="TrustPort">Where a phone learns to trust a house that vouches for itself; none where it does not.</param>
internal sealed record Opening(
    OpenAddress Address,
    IReadOnlyList<IPNetwork> Proxies,
    (FileInfo Certificate, FileInfo Key)? Given,
    int? TrustPort
)
{
    /// <summary>Whether a proxy on this machine holds the certificate.</summary>
    public bool IsBehindProxy => Proxies.Count > 0;

    /// <summary>Whether the certificate is the house's own.</summary>
    public bool VouchesForItself => !IsBehindProxy && Given is null;

    /// <summary>The page that a phone opens before it trusts the server.</summary>
    public string? TrustPage => TrustPort is { } port ? $"http://{Address.Host}:{port}/" : null;
}
