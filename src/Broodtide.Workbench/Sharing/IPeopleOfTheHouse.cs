namespace Broodtide.Workbench.Sharing;

/// <summary>Who belongs to the house, so that nobody signs with another's name.</summary>
public interface IPeopleOfTheHouse
{
    /// <summary>Every person who was ever let in, with each name that person signs or has signed entries with.</summary>
    IReadOnlyList<SigningName> Names();
}

/// <summary>A name that a person signs entries with.</summary>
/// <param name="Person">The person.</param>
/// <param name="Name">The name.</param>
public readonly record struct SigningName(PersonId Person, string Name);

/// <summary>A house of which nothing but its visitor is known.</summary>
public sealed class NobodyElse : IPeopleOfTheHouse
{
    /// <inheritdoc/>
    public IReadOnlyList<SigningName> Names() => [];
}
