using System.Buffers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Demo;
using NodaTime;

namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// Entries as they are given away: what was not asked for is left out, another name stands for each name, and every entry
/// is sealed anew in one chain, so that hashes hold for what the reader has. Nothing of it leads back to the hashes of the
/// keeper's own journal. Where nothing is left out the entries stay as they were sealed. The same entries and choice give
/// the same bytes.
/// </summary>
public sealed class LeavingOut
{
    private readonly DossierChoice _choice;
    private readonly IReadOnlyDictionary<string, string> _photos;
    private readonly Dictionary<(string Sort, string Name), string> _names = [];
    private readonly Dictionary<string, int> _counts = new(StringComparer.Ordinal);

    private LeavingOut(DossierChoice choice, IReadOnlyDictionary<string, string> photos) =>
        (_choice, _photos) = (choice, photos);

    /// <summary>The entries as they are given away.</summary>
    /// <param name="entries">The entries of runs, in the order in which they were written down.</param>
    /// <param name="choice">What was asked for.</param>
    /// <param name="photos">
    /// The hash of each photo that goes with it as it was and as it is given away; other photos are left out.
    /// </param>
    public static IReadOnlyList<Entry> Of(
        IReadOnlyList<Entry> entries,
        DossierChoice choice,
        IReadOnlyDictionary<string, string> photos
    )
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(choice);
        ArgumentNullException.ThrowIfNull(photos);
        if (choice.IsWhole)
        {
            return [.. entries.Where(entry => entry.Fact is not PhotoAdded || choice.Photos)];
        }

        return new LeavingOut(choice, photos).SealAll(entries);
    }

    /// <summary>The zone that stands for a zone where places are left out: its distance from UTC at an instant, in whole hours.</summary>
    public static string ZoneWithoutPlace(string zone, Instant at)
    {
        var seconds = DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone)?.GetUtcOffset(at).Seconds ?? 0;
        var hours = (int)Math.Round(seconds / 3600.0, MidpointRounding.AwayFromZero);
        // The signs of these names run the other way: Etc/GMT-2 is two hours before UTC on the clock of the east.
        return hours == 0 ? "Etc/UTC"
            : hours > 0 ? $"Etc/GMT-{hours}"
            : $"Etc/GMT+{-hours}";
    }

    private List<Entry> SealAll(IReadOnlyList<Entry> entries)
    {
        var kept = entries.Where(Stays).ToList();
        var replica = new ReplicaId(IdentityFrom(kept));
        var sealedAnew = new List<Entry>(kept.Count);
        foreach (var entry in kept)
        {
            sealedAnew.Add(Seal(entry, replica, sealedAnew.Count + 1, sealedAnew.LastOrDefault()?.Digest));
        }

        return sealedAnew;
    }

    private bool Stays(Entry entry) =>
        entry.Fact switch
        {
            NoteWritten => _choice.Notes,
            PhotoAdded photo => _choice.Photos && _photos.ContainsKey(photo.Sha256),
            // Nobody here knows what it says.
            UnknownFact or UnreadableFact or ErasedFact => false,
            _ => true,
        };

    private Entry Seal(Entry entry, ReplicaId replica, long number, Digest? previous)
    {
        var envelope = entry.Envelope;
        // What a body holds beside what its kind names, nobody here could sort: the facts alone are written.
        var told = Kinds.Of(entry.Fact);
        byte[] salted = [.. SaltFrom(entry), .. Body(told, entry.Fact)];
        var written = EnvelopeText.Write(
            envelope with
            {
                Replica = replica,
                Sequence = number,
                Previous = previous,
                Body = Digest.Of(salted),
                Version = told.Version,
                Author =
                    _choice.Names || envelope.Author.IsSoftware
                        ? envelope.Author
                        : new Author(NameFor("keeper", envelope.Author.Name)),
                Zone = _choice.Place
                    ? envelope.Zone
                    : ZoneWithoutPlace(envelope.Zone, envelope.Happened.Earliest),
            }
        );
        var read = Entry.Read(new EntryBytes(written, salted));
        return read.Succeeded ? read.Value : throw new InvalidOperationException(read.Reason.ToString());
    }

    private byte[] Body(Kind kind, Fact fact)
    {
        var output = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(output))
        using (var body = JsonDocument.Parse(kind.Write(fact)))
        {
            Write(json, body.RootElement, kind.Name, "");
        }

        return CanonicalJson.From(output.WrittenSpan);
    }

    private void Write(Utf8JsonWriter json, JsonElement element, string kind, string at)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                json.WriteStartObject();
                foreach (var member in element.EnumerateObject())
                {
                    var name = at.Length == 0 ? member.Name : $"{at}.{member.Name}";
                    if (Said(member.Value, kind, name) is { } value)
                    {
                        json.WritePropertyName(member.Name);
                        Write(json, value, kind, name);
                    }
                }

                json.WriteEndObject();
                break;
            case JsonValueKind.Array:
                json.WriteStartArray();
                foreach (var item in element.EnumerateArray())
                {
                    Write(json, item, kind, at);
                }

                json.WriteEndArray();
                break;
            case JsonValueKind.String when Another(kind, at, element.GetString()!) is { } other:
                json.WriteStringValue(other);
                break;
            default:
                element.WriteTo(json);
                break;
        }
    }

    // None where the member is left out whole.
    private JsonElement? Said(JsonElement value, string kind, string name)
    {
        // Small pictures do not go along.
        var isSmallPicture = kind == "photo added" && name == "thumbnail";
        return isSmallPicture || (!_choice.Notes && TextsOfFacts.Of(kind, name) is TextSort.Note)
            ? null
            : value;
    }

    private string? Another(string kind, string name, string text) =>
        kind == "photo added" && name == "sha256" ? _photos[text]
        : !_choice.Names && TextsOfFacts.Of(kind, name) is TextSort.Name ? NameFor(SortOf(kind, name), text)
        : null;

    private static string SortOf(string kind, string name) =>
        kind switch
        {
            "animal acquired" => "animal",
            "animal seen berried" => "brood",
            "run started" => "run",
            "trial laid out" => "trial",
            "instrument described" => "instrument",
            "count made" when name.EndsWith("setup", StringComparison.Ordinal) => "setup",
            _ => "vessel",
        };

    private string NameFor(string sort, string name)
    {
        if (!_names.TryGetValue((sort, name), out var other))
        {
            var number = _counts[sort] = _counts.GetValueOrDefault(sort) + 1;
            // What is invented says so under any name.
            var mark = InventedHouse.Is(name) ? InventedHouse.Mark : "";
            _names[(sort, name)] = other = FormattableString.Invariant($"{sort} {number}{mark}");
        }

        return other;
    }

    private static byte[] SaltFrom(Entry entry) =>
        SHA256.HashData([.. "dossier salt"u8, .. entry.Bytes.SaltedBody.Span[..EntryBytes.SaltLength]])[
            ..EntryBytes.SaltLength
        ];

    private static Guid IdentityFrom(List<Entry> entries)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes("dossier replica"));
        foreach (var entry in entries)
        {
            hash.AppendData(entry.Id.Value.ToByteArray(bigEndian: true));
        }

        var bytes = hash.GetHashAndReset()[..16];
        // Version 8 of RFC 9562: made in a way of one's own.
        bytes[6] = (byte)((bytes[6] & 0x0f) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3f) | 0x80);
        return new Guid(bytes, bigEndian: true);
    }
}
