namespace Broodtide.Workbench.Sharing;

/// <summary>A person of the house. Ids are made by the server that the person was let into.</summary>
/// <param name="Value">The identity; UUID version 7.</param>
public readonly record struct PersonId(Guid Value)
{
    /// <summary>The identity as text.</summary>
    public override string ToString() => Value.ToString();
}

/// <summary>What a person of the house may do; each may do what the ones before it may.</summary>
public enum Role
{
    /// <summary>Sees everything, writes nothing.</summary>
    Reader,

    /// <summary>Writes entries, and corrects those written by the same person.</summary>
    Helper,

    /// <summary>Corrects and erases whatever was written.</summary>
    Keeper,

    /// <summary>Lets people in and out, and decides on what was held back.</summary>
    Owner,
}

/// <summary>Who comes to the server, as the session proves it.</summary>
/// <param name="Person">Which person.</param>
/// <param name="Name">What the person signs entries with.</param>
/// <param name="Role">What the person may do.</param>
public sealed record Visitor(PersonId Person, string Name, Role Role);
