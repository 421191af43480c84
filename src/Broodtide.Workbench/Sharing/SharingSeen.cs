using System.Text;
using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Sharing;

/// <summary>What an owner's phone reads of how sharing stands; see <see cref="OwnersText"/>.</summary>
/// <param name="HeldBack">Entries that wait for the owner, in the order of arrival.</param>
/// <param name="Marks">What the house says of entries.</param>
/// <param name="Refusals">What was refused, oldest first.</param>
/// <param name="Names">What each person is called.</param>
/// <param name="RefillUntil">Until when others' entries may be brought, RFC 3339; none if they may not.</param>
public sealed record SharingSeen(
    IReadOnlyList<HeldBackSeen> HeldBack,
    IReadOnlyList<MarkSeen> Marks,
    IReadOnlyList<RefusalSeen> Refusals,
    IReadOnlyDictionary<Guid, string> Names,
    string? RefillUntil = null
)
{
    /// <summary>Where a server tells it; no slash at either end.</summary>
    public const string Path = "api/sharing";

    /// <summary>An instant as it is told here; the beginning of 1970 for what is none.</summary>
    public static Instant InstantOf(string text) =>
        UtcText.TryParse(Encoding.UTF8.GetBytes(text), out var instant) ? instant : default;
}

/// <summary>An entry that waits for the owner.</summary>
/// <param name="Digest">Its digest, 64 hex figures.</param>
/// <param name="Person">Who sent it.</param>
/// <param name="At">When it came, RFC 3339.</param>
/// <param name="Reason">Why it was held back, a code.</param>
/// <param name="Envelope">Its envelope.</param>
/// <param name="Body">Its body; none if it was erased.</param>
public sealed record HeldBackSeen(
    string Digest,
    Guid Person,
    string At,
    string Reason,
    string Envelope,
    string? Body = null
)
{
    /// <summary>
    /// The entry, to be told and not to be kept: its random bytes stayed at the server. None if it is not understood.
    /// </summary>
    public Entry? ToEntry()
    {
        if (!Domain.Journal.Digest.TryParse(Encoding.UTF8.GetBytes(Digest), out var digest))
        {
            return null;
        }

        byte[] salted = Body is null
            ? []
            : [.. new byte[EntryBytes.SaltLength], .. Encoding.UTF8.GetBytes(Body)];
        var read = Entry.ReadTrusted(new EntryBytes(Encoding.UTF8.GetBytes(Envelope), salted), digest);
        return read.Succeeded ? read.Value : null;
    }
}

/// <summary>Something the house says of an entry.</summary>
/// <param name="Sort">"brought" or "clock-far-off".</param>
/// <param name="Person">Who sent the entry.</param>
/// <param name="At">When it came, RFC 3339.</param>
public sealed record MarkSeen(string Sort, Guid Person, string At);

/// <summary>A request that was refused.</summary>
/// <param name="At">When, RFC 3339.</param>
/// <param name="Name">Whose session it was.</param>
/// <param name="Code">Why.</param>
/// <param name="Details">What it was about, for a programmer's eye.</param>
public sealed record RefusalSeen(string At, string Name, string Code, string Details);

/// <summary>The owner decides on entries that were held back.</summary>
/// <param name="Entries">Their digests.</param>
public sealed record EntriesDecided(IReadOnlyList<string> Entries);

/// <summary>The owner opens the refill.</summary>
/// <param name="Hours">For how many hours.</param>
public sealed record RefillAsked(int Hours);

/// <summary>How they are written.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true
)]
[JsonSerializable(typeof(SharingSeen))]
[JsonSerializable(typeof(EntriesDecided))]
[JsonSerializable(typeof(RefillAsked))]
public sealed partial class SharingSeenJson : JsonSerializerContext;
