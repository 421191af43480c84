using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Phone.Counting;

/// <summary>One sample on its way: what was seen, none while nobody looked, and its volume as typed.</summary>
public sealed record DraftSample(int? Seen = null, string Volume = "", string Unit = "mL")
{
    /// <summary>The volume understood, if there is one.</summary>
    [JsonIgnore]
    public TypedNumber? Typed =>
        AmountText.Parse(Volume, "", Dimension.Volume, Unit) is { Succeeded: true } read
        && read.Value.AsVolume() is { Litres: > 0 }
            ? read.Value
            : null;
}

/// <summary>
/// A count under way, kept at each tap until it is written or thrown away. Nobody looked (no number) and none seen
/// (0) are two things: none seen is information and is said, never assumed.
/// </summary>
public sealed record CountDraft
{
    /// <summary>More fingers than this on one sample are a slip of something else.</summary>
    public const int Most = 1_000_000;

    public Guid? Vessel { get; init; }
    public CountMethod Method { get; init; } = CountMethod.Aliquot;
    public Guid? Cohort { get; init; }
    public bool? InDark { get; init; }
    public bool Again { get; init; }
    public IReadOnlyList<DraftSample> Samples { get; init; } = [new()];

    /// <summary>The sample that taps go to, from 0.</summary>
    public int At { get; init; }

    /// <summary>When it was begun, milliseconds since 1970; none before the first tap.</summary>
    public long? Began { get; init; }

    /// <summary>When something was counted last, milliseconds since 1970.</summary>
    public long? Last { get; init; }

    /// <summary>Only samples of known volume come in a row; every other way has one number.</summary>
    [JsonIgnore]
    public bool HasSamples => Method is CountMethod.Aliquot;

    [JsonIgnore]
    public DraftSample Current => Samples[At];

    [JsonIgnore]
    public bool HasBegun => Began is not null;

    /// <summary>Larvae tapped so far, over all samples.</summary>
    [JsonIgnore]
    public long Together => Samples.Sum(sample => (long)(sample.Seen ?? 0));

    /// <summary>The samples that were looked at.</summary>
    [JsonIgnore]
    public IEnumerable<DraftSample> Counted => Samples.Where(sample => sample.Seen is not null);

    [JsonIgnore]
    public bool CanUndo => Current.Seen is not null || (At > 0 && At == Samples.Count - 1);

    /// <summary>Undo takes an untouched sample away and goes back to the one before it.</summary>
    [JsonIgnore]
    public bool UndoGoesBack => Current.Seen is null && CanUndo;

    [JsonIgnore]
    public VesselId? VesselId => Vessel is { } id ? new VesselId(id) : null;

    /// <summary>One larva more.</summary>
    public CountDraft Tapped(Instant now) => Seen(Math.Min(Most, (Current.Seen ?? 0) + 1), now);

    /// <summary>Somebody looked and saw none.</summary>
    public CountDraft NoneSeen(Instant now) => Seen(0, now);

    /// <summary>One less; from none seen to not looked at; from an untouched last sample to the one before.</summary>
    public CountDraft Undone() =>
        UndoGoesBack ? this with { Samples = [.. Samples.Take(At)], At = At - 1 }
        : Current.Seen is { } seen ? With(At, Current with { Seen = seen > 1 ? seen - 1 : null })
        : this;

    /// <summary>The next sample, of the same volume; the untouched last one if there is one already.</summary>
    public CountDraft Next() =>
        Current.Seen is null ? this
        : Samples[^1].Seen is null ? this with { At = Samples.Count - 1 }
        : this with { Samples = [.. Samples, Samples[^1] with { Seen = null }], At = Samples.Count };

    /// <summary>Taps go to another sample.</summary>
    public CountDraft GoTo(int sample) => this with { At = Math.Clamp(sample, 0, Samples.Count - 1) };

    /// <summary>A sample told better.</summary>
    public CountDraft With(int sample, DraftSample told) =>
        this with
        {
            Samples = [.. Samples.Select((it, index) => index == sample ? told : it)],
        };

    /// <summary>A sample that was none is taken out; the last one only loses its number.</summary>
    public CountDraft Without(int sample) =>
        Samples.Count == 1
            ? With(0, Samples[0] with { Seen = null })
            : this with
            {
                Samples = [.. Samples.Where((_, index) => index != sample)],
                At = Math.Min(At, Samples.Count - 2),
            };

    /// <summary>One number for all but samples: what more there was is put together.</summary>
    public CountDraft By(CountMethod method) =>
        method == Method ? this
        : method is CountMethod.Aliquot || Samples.Count == 1 ? this with { Method = method }
        : this with
        {
            Method = method,
            At = 0,
            Samples = [Samples[0] with { Seen = Counted.Any() ? (int)Math.Min(Most, Together) : null }],
        };

    /// <summary>The volume of the samples not looked at yet.</summary>
    public CountDraft Of(string volume, string unit) =>
        this with
        {
            Samples =
            [
                .. Samples.Select(it => it.Seen is null ? it with { Volume = volume, Unit = unit } : it),
            ],
        };

    /// <summary>The same way of counting from the start, as a check of the same water.</summary>
    public CountDraft OnceMore() =>
        this with
        {
            Again = true,
            At = 0,
            Began = null,
            Last = null,
            Samples = [Samples[0] with { Seen = null }],
        };

    /// <summary>The fact; none while there is no vessel, no number, or a sample without a volume.</summary>
    public CountMade? ToFact()
    {
        var counted = Counted.ToList();
        return
            VesselId is not { } vessel
            || counted.Count == 0
            || (HasSamples && counted.Exists(it => it.Typed is null))
            ? null
            : new(
                vessel,
                Method,
                [.. counted.Select(it => new Aliquot(it.Seen!.Value, HasSamples ? it.Typed : null))],
                Cohort is { } cohort ? new CohortId(cohort) : null,
                Method is CountMethod.Aliquot or CountMethod.Full ? null : InDark,
                Again
            );
    }

    private CountDraft Seen(int seen, Instant now) =>
        With(At, Current with { Seen = seen }) with
        {
            Began = Began ?? now.ToUnixTimeMilliseconds(),
            Last = now.ToUnixTimeMilliseconds(),
        };
}
