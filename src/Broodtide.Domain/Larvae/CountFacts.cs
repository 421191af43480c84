using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Larvae;

/// <summary>How a number of larvae was arrived at.</summary>
[JsonConverter(typeof(Words<CountMethod>))]
public enum CountMethod
{
    /// <summary>A look and a guess.</summary>
    Glance,

    /// <summary>Gathered in a beam of light and counted or guessed.</summary>
    Beam,

    /// <summary>Every one counted.</summary>
    Full,

    /// <summary>Samples of known volume, each counted.</summary>
    Aliquot,

    /// <summary>Counted in photos.</summary>
    Photo,
}

/// <summary>One sample of a count.</summary>
/// <param name="Seen">Larvae seen in it.</param>
/// <param name="Volume">Volume of the sample; none for a whole vessel.</param>
public sealed record Aliquot(int Seen, TypedNumber? Volume = null);

/// <summary>Larvae, or juveniles before the return, were counted or guessed.</summary>
/// <param name="Vessel">Where.</param>
/// <param name="Method">How.</param>
/// <param name="Samples">Each sample with its own number and volume, never only the sum.</param>
/// <param name="Cohort">The cohort, if only one was counted.</param>
/// <param name="InDark">Whether the room was dark (a beam gathers more).</param>
/// <param name="Again">Whether the same water was counted a second time as a check.</param>
/// <param name="Pictures">What was counted in, if it was pictures: the sample then holds what was marked and left.</param>
public sealed record CountMade(
    VesselId Vessel,
    CountMethod Method,
    IReadOnlyList<Aliquot> Samples,
    CohortId? Cohort = null,
    bool? InDark = null,
    bool Again = false,
    PicturesSeen? Pictures = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Vessel);
        if (Cohort is { } cohort)
        {
            yield return Subject.Of(cohort);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        Samples.Select(sample => ("samples.volume", sample.Volume, Dimension.Volume));

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() =>
        Samples.Select(sample => ("samples.seen", (long?)sample.Seen));

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() =>
        [
            ("samples", Samples),
            ("pictures.pictures", Pictures?.Pictures),
            ("pictures.counts", Pictures?.Counts),
            ("pictures.marks", Pictures?.Marks),
        ];

    /// <inheritdoc/>
    private protected override Remark? Amiss() => Pictures?.Amiss();
}

/// <summary>Dead larvae were taken out: a lower bound on deaths, not a count of them.</summary>
/// <param name="Vessel">Where.</param>
/// <param name="Number">How many.</param>
public sealed record DeadRemoved(VesselId Vessel, int Number) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
}

/// <summary>How many larvae of a sample stood in one stage.</summary>
/// <param name="Stage">The stage's code in the species profile, such as Z6.</param>
/// <param name="Number">How many.</param>
public sealed record StageTally(string Stage, int Number);

/// <summary>Larvae were staged under the microscope.</summary>
/// <param name="Vessel">Where they came from.</param>
/// <param name="Stages">How many in each stage.</param>
/// <param name="Cohort">The cohort, if known.</param>
public sealed record StageSampleTaken(
    VesselId Vessel,
    IReadOnlyList<StageTally> Stages,
    CohortId? Cohort = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Vessel);
        if (Cohort is { } cohort)
        {
            yield return Subject.Of(cohort);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() =>
        Stages.Select(tally => ("stages.number", (long?)tally.Number));

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() => [("stages", Stages)];
}
