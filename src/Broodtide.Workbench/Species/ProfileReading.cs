using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>What came of reading a profile file: exactly one of the two is there.</summary>
/// <param name="Profile">The profile.</param>
/// <param name="Fault">What is wrong with the text, and where.</param>
public sealed record ProfileReading(SpeciesProfile? Profile, ProfileFault? Fault);

/// <summary>The first thing wrong with a profile file. The words come from the doors.</summary>
/// <param name="Code">One of <see cref="ProfileFaultCodes"/>.</param>
/// <param name="Place">The JSON path, for example <c>$.quantities[3].low</c>.</param>
/// <param name="Found">What stands there, shortened; empty where nothing does.</param>
/// <param name="Allowed">What is allowed there; empty where nothing is to be listed.</param>
/// <param name="Line">The line, counted from 1, where the text itself could not be read; else none.</param>
public sealed record ProfileFault(
    string Code,
    string Place,
    string Found,
    ImmutableArray<string> Allowed,
    long? Line = null
)
{
    /// <summary>One line for a programmer's eye; doors write for people.</summary>
    public override string ToString() => $"{Code} at {Place}: '{Found}' [{string.Join(", ", Allowed)}]";
}

/// <summary>The codes of <see cref="ProfileFault"/>.</summary>
public static class ProfileFaultCodes
{
    /// <summary>Not JSON, a member of another JSON type, a member nobody knows, or one given twice.</summary>
    public const string NotUnderstood = "profile-not-understood";

    /// <summary>A member, quantity or part that must be there is not.</summary>
    public const string Missing = "profile-missing";

    /// <summary>A word, unit or number that is not allowed there.</summary>
    public const string NotAllowed = "profile-not-allowed";

    /// <summary>A member that does not go with another one.</summary>
    public const string NotExpected = "profile-not-expected";

    /// <summary>Low, value and high, or the stages, do not ascend.</summary>
    public const string NotAscending = "profile-not-ascending";

    /// <summary>A code given twice.</summary>
    public const string Twice = "profile-twice";
}
