using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>
/// What is known of a species and how well, read from one file, with a keeper's choices on top. The typed doors
/// are those every tool uses; the rest is found by code.
/// </summary>
public sealed partial class SpeciesProfile
{
    private readonly FrozenDictionary<string, ProfileQuantity> _byCode;

    internal SpeciesProfile(
        string code,
        string scientificName,
        ImmutableArray<ProfileQuantity> quantities,
        ImmutableArray<ProfileFact> facts,
        ImmutableArray<ProfileStage> stages,
        ImmutableArray<ProfileConflict> conflicts
    )
    {
        Code = code;
        ScientificName = scientificName;
        Quantities = quantities;
        Facts = facts;
        Stages = stages;
        Conflicts = conflicts;
        _byCode = quantities.ToFrozenDictionary(quantity => quantity.Code, StringComparer.Ordinal);
    }

    /// <summary>The code of the species, for example <c>caridina-multidentata</c>.</summary>
    public string Code { get; }

    /// <summary>The scientific name, for example <c>Caridina multidentata</c>.</summary>
    public string ScientificName { get; }

    /// <summary>All quantities, in the order of the file.</summary>
    public ImmutableArray<ProfileQuantity> Quantities { get; }

    /// <summary>What is known that is not a number.</summary>
    public ImmutableArray<ProfileFact> Facts { get; }

    /// <summary>The larval stages in their order, the post-larva last.</summary>
    public ImmutableArray<ProfileStage> Stages { get; }

    /// <summary>The choices that could not stand; empty where none was made.</summary>
    public ImmutableArray<ProfileConflict> Conflicts { get; }

    /// <summary>Reads a profile from the bytes of its file. Bad text gives a fault, never an exception.</summary>
    public static ProfileReading Read(ReadOnlySpan<byte> utf8) => ProfileReader.Read(utf8);

    /// <summary>The quantity of this code.</summary>
    /// <exception cref="ArgumentException">The profile has none.</exception>
    public ProfileQuantity Quantity(string code) =>
        Find(code) ?? throw new ArgumentException($"{ScientificName} has no quantity {code}.", nameof(code));

    /// <summary>The quantity of this code, or none.</summary>
    public ProfileQuantity? Find(string? code) => code is null ? null : _byCode.GetValueOrDefault(code);

    /// <summary>What the profile says on a matter that is not a number, or none.</summary>
    public ProfileFact? Fact(string code) =>
        Facts.FirstOrDefault(fact => string.Equals(fact.Code, code, StringComparison.Ordinal));

    /// <summary>
    /// The same profile with exactly these choices on top of the originals: choices of an earlier call do not
    /// stay, so a choice left out is undone. Of two for one quantity the later stands, of two at one instant the
    /// later in the row. A choice that cannot stand leaves the original and shows in <see cref="Conflicts"/>.
    /// </summary>
    public SpeciesProfile With(IEnumerable<ProfileChoice> choices)
    {
        var applied = new Dictionary<string, AppliedChoice>(StringComparer.Ordinal);
        var conflicts = ImmutableArray.CreateBuilder<ProfileConflict>();

        // OrderBy keeps the order of equals.
        foreach (var choice in choices.OrderBy(choice => choice.When))
        {
            if (Find(choice.Code) is not { } quantity)
            {
                conflicts.Add(new(ProfileConflictCodes.UnknownQuantity, choice, []));
                continue;
            }

            var outcome = ProfileChoosing.Apply(quantity, choice);
            if (outcome.Applied is { } stands)
            {
                applied[quantity.Code] = stands;
            }
            else if (outcome.Conflict is { } conflict)
            {
                conflicts.Add(conflict);
            }
        }

        var quantities = Quantities.Select(quantity =>
            quantity with
            {
                Chosen = applied.GetValueOrDefault(quantity.Code),
            }
        );
        return new(Code, ScientificName, [.. quantities], Facts, Stages, conflicts.ToImmutable());
    }
}
