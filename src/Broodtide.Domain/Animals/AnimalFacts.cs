using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;

namespace Broodtide.Domain.Animals;

/// <summary>Female or male, as far as it can be told.</summary>
[JsonConverter(typeof(Words<Sex>))]
public enum Sex
{
    /// <summary>Carries eggs, or will.</summary>
    Female,

    /// <summary>Does not.</summary>
    Male,
}

/// <summary>An adult came into the house.</summary>
/// <param name="Animal">The animal.</param>
/// <param name="Name">What she or he is called here.</param>
/// <param name="Species">Scientific name, as believed.</param>
/// <param name="Sex">Female or male, if known.</param>
/// <param name="Vessel">Where it was put.</param>
/// <param name="Source">Where it came from, in the keeper's words.</param>
public sealed record AnimalAcquired(
    AnimalId Animal,
    string Name,
    string? Species = null,
    Sex? Sex = null,
    VesselId? Vessel = null,
    string? Source = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects()
    {
        yield return Subject.Of(Animal);
        if (Vessel is { } vessel)
        {
            yield return Subject.Of(vessel);
        }
    }
}

/// <summary>An adult shed its skin.</summary>
/// <param name="Animal">The animal.</param>
public sealed record AnimalMoulted(AnimalId Animal) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Animal)];
}

/// <summary>An adult was moved to another vessel.</summary>
/// <param name="Animal">The animal.</param>
/// <param name="To">Where it is from then on.</param>
public sealed record AnimalMoved(AnimalId Animal, VesselId To) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Animal), Subject.Of(To)];
}

/// <summary>An adult died.</summary>
/// <param name="Animal">The animal.</param>
/// <param name="Cause">The keeper's guess at the cause.</param>
public sealed record AnimalDied(AnimalId Animal, string? Cause = null) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Animal)];
}
