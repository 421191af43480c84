using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;

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

/// <summary>The first larvae, or more of them, were seen in the water.</summary>
/// <param name="Brood">The brood they hatched from.</param>
/// <param name="Vessel">Where.</param>
/// <param name="Over">Whether hatching was judged to be over.</param>
public sealed record HatchingSeen(BroodId Brood, VesselId? Vessel = null, bool Over = false) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Brood);
        if (Vessel is { } vessel)
        {
            yield return Subject.Of(vessel);
        }
    }
}

/// <summary>Larvae were gathered from the hatching box.</summary>
/// <param name="Collection">The collection.</param>
/// <param name="Brood">The brood they hatched from.</param>
/// <param name="From">The hatching box.</param>
/// <param name="Into">The cup.</param>
/// <param name="Number">How many.</param>
/// <param name="Method">How the number was arrived at.</param>
public sealed record CollectionMade(
    CollectionId Collection,
    BroodId Brood,
    VesselId? From = null,
    VesselId? Into = null,
    int? Number = null,
    CountMethod? Method = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Brood);
        if (From is { } from)
        {
            yield return Subject.Of(from);
        }

        if (Into is { } into)
        {
            yield return Subject.Of(into);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}

/// <summary>One pour of a crossing.</summary>
/// <param name="AfterSeconds">Seconds since the crossing began.</param>
/// <param name="DrawnOff">Water drawn off before the pour.</param>
/// <param name="Added">Water of the other kind added.</param>
public sealed record CrossingPour(double AfterSeconds, TypedNumber? DrawnOff, TypedNumber? Added);

/// <summary>Larvae were taken from fresh to salt water.</summary>
/// <param name="Cohort">The cohort that they are from then on.</param>
/// <param name="Brood">The brood they hatched from.</param>
/// <param name="To">The larval vessel.</param>
/// <param name="Collections">The collections that went in.</param>
/// <param name="Number">How many larvae.</param>
/// <param name="Method">How the number was arrived at.</param>
/// <param name="Source">The vessel whose sea water was poured.</param>
/// <param name="PouredSalinity">Salinity of the water poured.</param>
/// <param name="Entered">Volume of the cup that went into the larval vessel.</param>
/// <param name="EnteredSalinity">Salinity of what went in.</param>
/// <param name="BrackishMinutes">Minutes the larvae stood in brackish water.</param>
/// <param name="Pours">The pours as they were made.</param>
public sealed record CrossingMade(
    CohortId Cohort,
    BroodId Brood,
    VesselId To,
    IReadOnlyList<CollectionId>? Collections = null,
    int? Number = null,
    CountMethod? Method = null,
    VesselId? Source = null,
    TypedNumber? PouredSalinity = null,
    TypedNumber? Entered = null,
    TypedNumber? EnteredSalinity = null,
    TypedNumber? BrackishMinutes = null,
    IReadOnlyList<CrossingPour>? Pours = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Cohort);
        yield return Subject.Of(Brood);
        yield return Subject.Of(To);
        if (Source is { } source && source != To)
        {
            yield return Subject.Of(source);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers()
    {
        yield return ("pouredSalinity", PouredSalinity, Dimension.Salinity);
        yield return ("entered", Entered, Dimension.Volume);
        yield return ("enteredSalinity", EnteredSalinity, Dimension.Salinity);
        yield return ("brackishMinutes", BrackishMinutes, Dimension.Duration);
        foreach (var pour in Pours ?? [])
        {
            yield return ("pours.drawnOff", pour.DrawnOff, Dimension.Volume);
            yield return ("pours.added", pour.Added, Dimension.Volume);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
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
public sealed record CountMade(
    VesselId Vessel,
    CountMethod Method,
    IReadOnlyList<Aliquot> Samples,
    CohortId? Cohort = null,
    bool? InDark = null,
    bool Again = false
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
    public override IEnumerable<(string Name, int? Count)> Counts() =>
        Samples.Select(sample => ("samples.seen", (int?)sample.Seen));
}

/// <summary>Dead larvae were taken out: a lower bound on deaths, not a count of them.</summary>
/// <param name="Vessel">Where.</param>
/// <param name="Number">How many.</param>
public sealed record DeadRemoved(VesselId Vessel, int Number) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
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
    public override IEnumerable<(string Name, int? Count)> Counts() =>
        Stages.Select(tally => ("stages.number", (int?)tally.Number));
}

/// <summary>Larvae were moved from one vessel to another; each cohort keeps its identity.</summary>
/// <param name="From">Out of.</param>
/// <param name="To">Into.</param>
/// <param name="Cohorts">The cohorts, all of the vessel if left out.</param>
/// <param name="Number">How many, if not all.</param>
public sealed record CohortsMoved(
    VesselId From,
    VesselId To,
    IReadOnlyList<CohortId>? Cohorts = null,
    int? Number = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() =>
        [Subject.Of(From), Subject.Of(To), .. (Cohorts ?? []).Select(Subject.Of)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}

/// <summary>Cohorts of one vessel are told as one from then on.</summary>
/// <param name="Vessel">Where they live.</param>
/// <param name="Cohorts">The cohorts that are joined.</param>
/// <param name="Into">The cohort whose name they bear from then on.</param>
public sealed record CohortsMerged(VesselId Vessel, IReadOnlyList<CohortId> Cohorts, CohortId Into) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() =>
        [Subject.Of(Vessel), Subject.Of(Into), .. Cohorts.Where(c => c != Into).Select(Subject.Of)];
}

/// <summary>A part of a cohort went into another vessel.</summary>
/// <param name="Cohort">The cohort; both parts keep its identity.</param>
/// <param name="From">Where it was.</param>
/// <param name="To">Where the part went.</param>
/// <param name="Number">How many went.</param>
public sealed record CohortSplit(CohortId Cohort, VesselId From, VesselId To, int? Number = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Cohort), Subject.Of(From), Subject.Of(To)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}

/// <summary>Bottom-living post-larvae were seen.</summary>
/// <param name="Vessel">Where.</param>
/// <param name="Number">How many were seen; few seen is not few settled.</param>
public sealed record SettlementSeen(VesselId Vessel, int? Number = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}

/// <summary>Juveniles went back to fresh water.</summary>
/// <param name="From">The larval vessel.</param>
/// <param name="To">The nursery.</param>
/// <param name="Number">How many.</param>
/// <param name="Cohort">The cohort, if known.</param>
/// <param name="Minutes">How long the way took.</param>
public sealed record JuvenilesReturned(
    VesselId From,
    VesselId To,
    int? Number = null,
    CohortId? Cohort = null,
    TypedNumber? Minutes = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(From);
        yield return Subject.Of(To);
        if (Cohort is { } cohort)
        {
            yield return Subject.Of(cohort);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("minutes", Minutes, Dimension.Duration)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}

/// <summary>Juveniles in fresh water were counted.</summary>
/// <param name="Vessel">Where.</param>
/// <param name="Number">How many.</param>
/// <param name="Method">How.</param>
public sealed record JuvenilesCounted(VesselId Vessel, int Number, CountMethod Method) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}

/// <summary>Juveniles left the house for another keeper.</summary>
/// <param name="Vessel">Where they had lived.</param>
/// <param name="Number">How many.</param>
/// <param name="To">Who has them now.</param>
public sealed record JuvenilesGivenAway(VesselId Vessel, int Number, string? To = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, int? Count)> Counts() => [("number", Number)];
}
