using System.Collections.Immutable;
using NodaTime;

namespace Broodtide.Workbench.Species;

/// <summary>
/// A keeper's own numbers in place of a profile's, as an entry holds them. Nothing is checked here: what cannot be
/// becomes a conflict where the choice is applied, and the entry stays.
/// </summary>
/// <param name="Code">The code of the quantity.</param>
/// <param name="Value">The value, or none to leave that of the profile.</param>
/// <param name="Low">The low end, or none to leave that of the profile.</param>
/// <param name="High">The high end, or none to leave that of the profile.</param>
/// <param name="Unit">The code of the unit of the three, any of the quantity's kind.</param>
/// <param name="Reason">Why, in the keeper's words.</param>
/// <param name="Who">Who chose.</param>
/// <param name="When">When it was chosen; of two choices for one quantity the later stands.</param>
public sealed record ProfileChoice(
    string Code,
    double? Value,
    double? Low,
    double? High,
    string Unit,
    string Reason,
    string Who,
    Instant When
);

/// <summary>A choice that stands.</summary>
/// <param name="Choice">The choice as it was made.</param>
/// <param name="Amount">
/// The numbers in the quantity's own unit: the chosen parts, and the original's for the rest. An original end that
/// a chosen part passes moves out to it.
/// </param>
/// <param name="OutsidePublished">Whether a chosen part lies outside the published range.</param>
public sealed record AppliedChoice(ProfileChoice Choice, ProfileAmount Amount, bool OutsidePublished);

/// <summary>A choice that cannot stand, and why; the original holds. The words come from the doors.</summary>
/// <param name="Code">One of <see cref="ProfileConflictCodes"/>.</param>
/// <param name="Choice">The choice as it was made.</param>
/// <param name="Allowed">What is allowed there, as codes; empty where nothing is to be listed.</param>
public sealed record ProfileConflict(string Code, ProfileChoice Choice, ImmutableArray<string> Allowed);

/// <summary>The codes of <see cref="ProfileConflict"/>.</summary>
public static class ProfileConflictCodes
{
    /// <summary>The profile has no quantity of this code.</summary>
    public const string UnknownQuantity = "profile-choice-unknown-quantity";

    /// <summary>The unit is not on the list; the units of the quantity's kind are allowed.</summary>
    public const string UnknownUnit = "profile-choice-unknown-unit";

    /// <summary>The unit measures something else; the units of the quantity's kind are allowed.</summary>
    public const string UnitOfAnotherKind = "profile-choice-unit-of-another-kind";

    /// <summary>The choice holds no number.</summary>
    public const string Empty = "profile-choice-empty";

    /// <summary>The choice holds a part that the quantity does not have; the parts it has are allowed.</summary>
    public const string PartNotUsed = "profile-choice-part-not-used";

    /// <summary>A number that cannot be: not finite, negative where nothing is, a share above one.</summary>
    public const string Impossible = "profile-choice-impossible";

    /// <summary>The chosen low, value and high do not ascend.</summary>
    public const string NotAscending = "profile-choice-not-ascending";

    /// <summary>The reason is missing.</summary>
    public const string NoReason = "profile-choice-no-reason";
}
