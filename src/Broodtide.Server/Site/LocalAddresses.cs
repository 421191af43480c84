using System.Net;

namespace Broodtide.Server.Site;

/// <summary>
/// Addresses on this machine. The journal has no accounts yet, so nothing outside may reach it; a proxy that
/// holds a certificate can stand in front.
/// </summary>
/// <param name="Addresses">The addresses, empty where the text was not understood.</param>
/// <param name="Trouble">What was wrong with the text, if anything.</param>
internal sealed record LocalAddresses(IReadOnlyList<Uri> Addresses, string? Trouble)
{
    public const string Default = "http://127.0.0.1:5087";

    public static LocalAddresses Parse(string text)
    {
        var addresses = new List<Uri>();
        foreach (
            var part in text.Split(
                ';',
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            )
        )
        {
            if (
                !Uri.TryCreate(part, UriKind.Absolute, out var address)
                || address.Scheme != Uri.UriSchemeHttp
            )
            {
                return Refused($"'{part}' is not an address such as {Default}.");
            }

            if (!IsThisMachine(address))
            {
                return Refused(
                    $"'{part}' can be reached from outside. Broodtide listens on this machine only, "
                        + "for example on http://127.0.0.1:5087; let a proxy with a certificate stand in front."
                );
            }

            addresses.Add(address);
        }

        return addresses.Count > 0 ? new(addresses, null) : Refused($"No address; for example {Default}.");
    }

    private static bool IsThisMachine(Uri address) =>
        string.Equals(address.Host, "localhost", StringComparison.OrdinalIgnoreCase)
        || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip));

    private static LocalAddresses Refused(string trouble) => new([], trouble);
}
