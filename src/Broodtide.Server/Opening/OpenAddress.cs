using System.Globalization;
using System.Net;
using Broodtide.Server.Certificates;
using Broodtide.Units;

namespace Broodtide.Server.Opening;

/// <summary>
/// Where the house finds its server: the public name with its port, and other names it answers to. The public one is
/// the address of every phone's store.
/// </summary>
/// <param name="Host">The public name, or an address in brackets where it is IPv6.</param>
/// <param name="Port">The port of the public name.</param>
/// <param name="Names">Every name and address, the public one among them.</param>
internal sealed record OpenAddress(string Host, int Port, HouseNames Names)
{
    /// <summary>A port that needs no right of the system's own.</summary>
    public const int DefaultPort = 5443;

    private const int HttpsPort = 443;

    /// <summary>As browsers write it.</summary>
    public string Origin => OriginOf(Host, Port);

    /// <summary>
    /// Reads names parted by commas or blanks, the public one first and alone with a port:
    /// "broodtide.home.arpa:5443, 192.168.1.20".
    /// </summary>
    public static (OpenAddress? Address, Remark? Trouble) Parse(string text, int defaultPort = DefaultPort)
    {
        string? host = null;
        var port = defaultPort;
        var dns = new List<string>();
        var addresses = new List<IPAddress>();
        foreach (
            var part in text.Split(
                [',', ';', ' '],
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            )
        )
        {
            var (name, typedPort) = Cut(part);
            if (typedPort == 0 || (typedPort is not null && host is not null))
            {
                return (null, new Remark("open-port", new Argument("typed", part)));
            }

            port = host is null ? typedPort ?? defaultPort : port;
            if (IPAddress.TryParse(name.Trim('[', ']'), out var address) && name.Any(c => c is '.' or ':'))
            {
                if (!HouseNames.IsOfAHouse(address))
                {
                    return (null, new Remark("open-address", new Argument("typed", name)));
                }

                addresses.Add(address);
                host ??= address.ToString().Contains(':') ? $"[{address}]" : address.ToString();
            }
            else if (HouseNames.DnsName(name) is { } dnsName)
            {
                dns.Add(dnsName);
                host ??= dnsName;
            }
            else
            {
                return (null, new Remark("open-name", new Argument("typed", part)));
            }
        }

        return host is null
            ? (null, new Remark("open-name", new Argument("typed", text)))
            : (new(host, port, new([.. dns.Distinct()], [.. addresses.Distinct()])), null);
    }

    public static string OriginOf(string host, int port) =>
        port == HttpsPort
            ? $"https://{host}"
            : string.Create(CultureInfo.InvariantCulture, $"https://{host}:{port}");

    // 0 stands for a port that is none.
    private static (string Name, int? Port) Cut(string part)
    {
        int? unsaid = null;
        if (part.StartsWith("https://", StringComparison.OrdinalIgnoreCase))
        {
            part = part["https://".Length..].TrimEnd('/');
            unsaid = HttpsPort;
        }

        var colon = part.LastIndexOf(':');
        var isBareIPv6 = !part.StartsWith('[') && part.Count(c => c == ':') > 1;
        if (colon < 0 || isBareIPv6 || part.EndsWith(']'))
        {
            return (part, unsaid);
        }

        var isPort =
            int.TryParse(part[(colon + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var port)
            && port is > 0 and <= 65535;
        return (part[..colon], isPort ? port : 0);
    }
}
