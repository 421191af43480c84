using System.Net;

namespace Broodtide.Server.Certificates;

/// <summary>The names and addresses by which a house reaches its server; nothing that the whole internet could mean.</summary>
/// <param name="Dns">Host names in lower case, the public one first where there is one.</param>
/// <param name="Addresses">Addresses on the house's own network.</param>
internal sealed record HouseNames(IReadOnlyList<string> Dns, IReadOnlyList<IPAddress> Addresses)
{
    /// <summary>All of them as text, host names first.</summary>
    public IEnumerable<string> All => [.. Dns, .. Addresses.Select(address => address.ToString())];

    /// <summary>A host name as certificates write it, or none where the text is no such name.</summary>
    public static string? DnsName(string text)
    {
        var name = text.Trim().TrimEnd('.').ToLowerInvariant();
        return
            name.Length is > 0 and <= 253
            && name != "localhost"
            && name.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.')
            && name.Any(char.IsAsciiLetter)
            && Uri.CheckHostName(name) == UriHostNameType.Dns
            ? name
            : null;
    }

    /// <summary>
    /// Whether an address belongs to a network of one's own: RFC 1918, RFC 3927 (link-local), RFC 6598 (shared, as
    /// overlay networks use it) and RFC 4193 (unique local).
    /// </summary>
    public static bool IsOfAHouse(IPAddress address) => Private.Any(network => network.Contains(address));

    private static readonly IPNetwork[] Private =
    [
        IPNetwork.Parse("10.0.0.0/8"),
        IPNetwork.Parse("172.16.0.0/12"),
        IPNetwork.Parse("192.168.0.0/16"),
        IPNetwork.Parse("169.254.0.0/16"),
        IPNetwork.Parse("100.64.0.0/10"),
        IPNetwork.Parse("fc00::/7"),
    ];
}
