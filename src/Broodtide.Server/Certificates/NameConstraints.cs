using System.Formats.Asn1;
using System.Net;
using System.Security.Cryptography.X509Certificates;

namespace Broodtide.Server.Certificates;

/// <summary>
/// What an authority may vouch for, written into its certificate (RFC 5280, 4.2.1.10): a phone that trusts it need
/// not trust it for anything else. The framework has no builder for this extension.
/// </summary>
internal static class NameConstraints
{
    public const string Oid = "2.5.29.30";

    // RFC 6761 gives this name to nobody. Where a house has no host name, it is the one allowed: a form of name that is
    // not mentioned at all would be free.
    private const string Nobody = "broodtide.invalid";

    private static readonly Asn1Tag Permitted = new(TagClass.ContextSpecific, 0);
    private static readonly Asn1Tag Excluded = new(TagClass.ContextSpecific, 1);
    private static readonly Asn1Tag DnsName = new(TagClass.ContextSpecific, 2);
    private static readonly Asn1Tag IPAddressRange = new(TagClass.ContextSpecific, 7);

    /// <summary>The extension, marked critical: whoever does not understand it must not trust the authority.</summary>
    public static X509Extension For(HouseNames names)
    {
        var writer = new AsnWriter(AsnEncodingRules.DER);
        using (writer.PushSequence())
        {
            using (writer.PushSequence(Permitted))
            {
                foreach (var name in names.Dns.Count > 0 ? names.Dns : [Nobody])
                {
                    using (writer.PushSequence())
                    {
                        writer.WriteCharacterString(UniversalTagNumber.IA5String, name, DnsName);
                    }
                }

                foreach (var address in names.Addresses)
                {
                    var bytes = address.GetAddressBytes();
                    WriteRange(writer, bytes, [.. bytes.Select(_ => (byte)0xff)]);
                }
            }

            if (names.Addresses.Count == 0)
            {
                using (writer.PushSequence(Excluded))
                {
                    WriteRange(writer, new byte[4], new byte[4]);
                    WriteRange(writer, new byte[16], new byte[16]);
                }
            }
        }

        return new X509Extension(Oid, writer.Encode(), critical: true);
    }

    /// <summary>What an authority may vouch for; nothing where it carries no such limits.</summary>
    public static HouseNames Read(X509Certificate2 authority)
    {
        var dns = new List<string>();
        var addresses = new List<IPAddress>();
        if (authority.Extensions[Oid] is not { } extension)
        {
            return new(dns, addresses);
        }

        var whole = new AsnReader(extension.RawData, AsnEncodingRules.DER).ReadSequence();
        if (whole.HasData && whole.PeekTag().HasSameClassAndValue(Permitted))
        {
            var subtrees = whole.ReadSequence(Permitted);
            while (subtrees.HasData)
            {
                var subtree = subtrees.ReadSequence();
                if (subtree.PeekTag().HasSameClassAndValue(DnsName))
                {
                    dns.Add(subtree.ReadCharacterString(UniversalTagNumber.IA5String, DnsName));
                }
                else if (subtree.PeekTag().HasSameClassAndValue(IPAddressRange))
                {
                    var range = subtree.ReadOctetString(IPAddressRange);
                    addresses.Add(new IPAddress(range.AsSpan(0, range.Length / 2)));
                }
            }
        }

        return new([.. dns.Where(name => name != Nobody)], addresses);
    }

    /// <summary>The names of a house that an authority may not vouch for.</summary>
    public static IReadOnlyList<string> Beyond(X509Certificate2 authority, HouseNames names)
    {
        var allowed = Read(authority);
        return
        [
            .. names.Dns.Where(name => !allowed.Dns.Any(parent => IsUnder(name, parent))),
            .. names.Addresses.Except(allowed.Addresses).Select(address => address.ToString()),
        ];
    }

    private static bool IsUnder(string name, string parent) =>
        name == parent || name.EndsWith("." + parent, StringComparison.Ordinal);

    private static void WriteRange(AsnWriter writer, byte[] address, byte[] mask)
    {
        using (writer.PushSequence())
        {
            writer.WriteOctetString([.. address, .. mask], IPAddressRange);
        }
    }
}
