using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using NodaTime;

namespace Broodtide.Phone.Counting;

/// <summary>What is left in the hatching box when the keeper leaves it.</summary>
public enum LeftInBox
{
    /// <summary>Not noted.</summary>
    Unsaid,

    /// <summary>More larvae were seen there.</summary>
    More,

    /// <summary>None were seen, and hatching is judged to be over.</summary>
    Over,
}

/// <summary>
/// Larvae being taken from the hatching box, kept at each tap until they are written or thrown away. Not counted (no
/// number) and none are two things.
/// </summary>
public sealed record GatherDraft
{
    /// <summary>More taps than this are a slip of something else.</summary>
    public const int Most = 1_000_000;

    // Enough for a slip that is noticed some taps later; older ones are put right by typing.
    private const int MostUndone = 50;

    public Guid? Brood { get; init; }
    public Guid? From { get; init; }
    public Guid? Into { get; init; }

    /// <summary>Larvae tapped; none while nobody counted.</summary>
    public int? Taken { get; init; }

    /// <summary>The last taps, each with how many it added: what undo takes back.</summary>
    public IReadOnlyList<int> Taps { get; init; } = [];

    /// <summary>Whether ten were ever tapped at once: then not every one was counted.</summary>
    public bool InTens { get; init; }

    /// <summary>When the first was pipetted over, milliseconds since 1970; none before it.</summary>
    public long? First { get; init; }

    /// <summary>When the last was, milliseconds since 1970.</summary>
    public long? Last { get; init; }

    /// <summary>After how many minutes to look at the light again.</summary>
    public int AgainMinutes { get; init; } = 10;

    /// <summary>When to look again, milliseconds since 1970; none while it is not wanted.</summary>
    public long? Again { get; init; }

    /// <summary>Water that went into the cup with them, as typed.</summary>
    public string Volume { get; init; } = "";

    public string VolumeUnit { get; init; } = "mL";

    public LeftInBox Left { get; init; }

    public CountMethod? Method { get; init; }

    [JsonIgnore]
    public bool HasBegun => First is not null;

    [JsonIgnore]
    public BroodId? BroodId => Brood is { } id ? new BroodId(id) : null;

    [JsonIgnore]
    public VesselId? FromId => From is { } id ? new VesselId(id) : null;

    [JsonIgnore]
    public VesselId? IntoId => Into is { } id ? new VesselId(id) : null;

    [JsonIgnore]
    public Instant? FirstAt => First is { } at ? Instant.FromUnixTimeMilliseconds(at) : null;

    [JsonIgnore]
    public Instant? AgainAt => Again is { } at ? Instant.FromUnixTimeMilliseconds(at) : null;

    /// <summary>How the number was arrived at, unless the keeper says otherwise: one by one is a full count.</summary>
    [JsonIgnore]
    public CountMethod Counted => Method ?? (InTens ? CountMethod.Glance : CountMethod.Full);

    /// <summary>Some went over; ten at a time are a guess.</summary>
    public GatherDraft Tapped(int larvae, Instant now) =>
        this with
        {
            Taken = Math.Min(Most, (Taken ?? 0) + larvae),
            Taps = [.. Taps.TakeLast(MostUndone - 1), larvae],
            InTens = InTens || larvae > 1,
            First = First ?? now.ToUnixTimeMilliseconds(),
            Last = now.ToUnixTimeMilliseconds(),
        };

    /// <summary>Some went over and nobody counted.</summary>
    public GatherDraft Uncounted(Instant now) =>
        this with
        {
            First = First ?? now.ToUnixTimeMilliseconds(),
            Last = now.ToUnixTimeMilliseconds(),
        };

    /// <summary>The last tap is taken back; the first of all takes its time with it.</summary>
    public GatherDraft Undone()
    {
        if (Taps.Count == 0)
        {
            return this;
        }

        var left = (Taken ?? 0) - Taps[^1];
        var back = this with { Taps = [.. Taps.SkipLast(1)], Taken = left > 0 ? left : null };
        return left > 0 ? back : back with { First = null, Last = null, InTens = false };
    }

    /// <summary>The light is looked at again some minutes from now.</summary>
    public GatherDraft LookAgain(Instant now) =>
        this with
        {
            Again = (now + Duration.FromMinutes(AgainMinutes)).ToUnixTimeMilliseconds(),
        };

    /// <summary>Whether a kept text says something that can be.</summary>
    [JsonIgnore]
    public bool IsWhole =>
        Taps is not null
        && Volume is not null
        && VolumeUnit is not null
        && Taken is null or (>= 0 and <= Most)
        && AgainMinutes is > 0 and <= 120
        && First is null == Last is null;
}
