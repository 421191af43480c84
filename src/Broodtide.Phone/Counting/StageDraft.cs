using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using NodaTime;

namespace Broodtide.Phone.Counting;

/// <summary>Larvae being staged: every tap in its order, kept until they are written or thrown away.</summary>
public sealed record StageDraft
{
    /// <summary>Stands in the row of taps for a larva between two stages, or of which nobody is sure.</summary>
    public const string LeftOut = "";

    public Guid? Vessel { get; init; }
    public Guid? Cohort { get; init; }

    /// <summary>The stage of each larva, in the order of tapping.</summary>
    public IReadOnlyList<string> Taps { get; init; } = [];

    /// <summary>When one was staged last, milliseconds since 1970.</summary>
    public long? Last { get; init; }

    [JsonIgnore]
    public VesselId? VesselId => Vessel is { } id ? new VesselId(id) : null;

    [JsonIgnore]
    public bool HasBegun => Taps.Count > 0;

    /// <summary>Larvae that have a stage.</summary>
    [JsonIgnore]
    public int Staged => Taps.Count - Of(LeftOut);

    /// <summary>The latest tap; none if there is none.</summary>
    [JsonIgnore]
    public string? Latest => Taps.Count > 0 ? Taps[^1] : null;

    public int Of(string stage) => Taps.Count(it => it == stage);

    public StageDraft Tapped(string stage, Instant now) =>
        this with
        {
            Taps = [.. Taps, stage],
            Last = now.ToUnixTimeMilliseconds(),
        };

    public StageDraft Undone() => Taps.Count == 0 ? this : this with { Taps = [.. Taps.SkipLast(1)] };

    /// <summary>How many in each stage, in the order of the key; stages that nobody saw are not among them.</summary>
    public IReadOnlyList<StageTally> Tallies(IEnumerable<string> stages) =>
        [.. stages.Select(stage => new StageTally(stage, Of(stage))).Where(tally => tally.Number > 0)];

    /// <summary>The fact; none while there is no vessel or no larva with a stage.</summary>
    public StageSampleTaken? ToFact(IEnumerable<string> stages) =>
        VesselId is { } vessel && Tallies(stages) is { Count: > 0 } tallies
            ? new(vessel, tallies, Cohort is { } cohort ? new CohortId(cohort) : null)
            : null;
}
