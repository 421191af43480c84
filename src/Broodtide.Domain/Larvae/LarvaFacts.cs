using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Larvae;

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
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
}

/// <summary>One pour of a crossing.</summary>
/// <param name="AfterSeconds">Seconds since the crossing began.</param>
/// <param name="DrawnOff">Water drawn off before the pour.</param>
/// <param name="Added">Water of the other kind added.</param>
public sealed record CrossingPour(
    double AfterSeconds,
    TypedNumber? DrawnOff = null,
    TypedNumber? Added = null
)
{
    internal static IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Volumes(
        IReadOnlyList<CrossingPour>? pours
    ) =>
        (pours ?? []).SelectMany(pour =>
            new[]
            {
                ("pours.drawnOff", pour.DrawnOff, Dimension.Volume),
                ("pours.added", pour.Added, Dimension.Volume),
            }
        );

    internal static IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Times(
        IReadOnlyList<CrossingPour>? pours
    ) => (pours ?? []).Select(pour => ("pours.afterSeconds", (double?)pour.AfterSeconds, 0.0, 1e7));
}

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
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [
            ("pouredSalinity", PouredSalinity, Dimension.Salinity),
            ("entered", Entered, Dimension.Volume),
            ("enteredSalinity", EnteredSalinity, Dimension.Salinity),
            ("brackishMinutes", BrackishMinutes, Dimension.Duration),
            .. CrossingPour.Volumes(Pours),
        ];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        CrossingPour.Times(Pours);

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() => [("pours", Pours)];
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
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
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
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
}
