using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Larvae;

/// <summary>Bottom-living post-larvae were seen.</summary>
/// <param name="Vessel">Where.</param>
/// <param name="Number">How many were seen; few seen is not few settled.</param>
public sealed record SettlementSeen(VesselId Vessel, int? Number = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
}

/// <summary>Juveniles went back to fresh water; where the vessel itself is diluted, out of it into itself.</summary>
/// <param name="From">The larval vessel.</param>
/// <param name="To">The nursery.</param>
/// <param name="Number">How many.</param>
/// <param name="Cohort">The cohort, if known.</param>
/// <param name="Minutes">How long the way took.</param>
/// <param name="Pours">The pours as they were made, if it went by pours.</param>
public sealed record JuvenilesReturned(
    VesselId From,
    VesselId To,
    int? Number = null,
    CohortId? Cohort = null,
    TypedNumber? Minutes = null,
    IReadOnlyList<CrossingPour>? Pours = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(From);
        if (To != From)
        {
            yield return Subject.Of(To);
        }

        if (Cohort is { } cohort)
        {
            yield return Subject.Of(cohort);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("minutes", Minutes, Dimension.Duration), .. CrossingPour.Volumes(Pours)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        CrossingPour.Times(Pours);

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() => [("pours", Pours)];
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
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
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
    public override IEnumerable<(string Name, long? Count)> Counts() => [("number", Number)];
}

/// <summary>Whoever got juveniles told how many of them live.</summary>
/// <param name="Vessel">Where they had lived here.</param>
/// <param name="Card">The code of the care card that went with them.</param>
/// <param name="Alive">How many live.</param>
/// <param name="Received">How many had come there, as they were counted there.</param>
/// <param name="Note">What else was told.</param>
public sealed record SurvivalHeard(
    VesselId Vessel,
    string Card,
    int Alive,
    int? Received = null,
    string? Note = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() =>
        [("alive", Alive), ("received", Received)];
}
