using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Households;

/// <summary>A person of the house, as kept.</summary>
/// <param name="Id">Which person.</param>
/// <param name="Name">What the person signs entries with.</param>
/// <param name="Role">What the person may do.</param>
/// <param name="PassphraseHash">The framework's hash of the passphrase; none where the person cannot sign in.</param>
/// <param name="Made">When the person came.</param>
/// <param name="Removed">When the person was let out; none while in.</param>
public sealed record Person(
    PersonId Id,
    string Name,
    Role Role,
    string? PassphraseHash,
    Instant Made,
    Instant? Removed
);

/// <summary>What became of a change to a person.</summary>
public enum PersonChange
{
    /// <summary>It was made.</summary>
    Done,

    /// <summary>There is no such person in the house.</summary>
    Unknown,

    /// <summary>The house would be without an owner; nothing was changed.</summary>
    LastOwner,
}
