using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>The profiles that come with Broodtide.</summary>
public static class SpeciesProfiles
{
    /// <summary>The beginning of the name of an embedded profile file.</summary>
    internal const string ResourcePrefix = "species/";

    private static readonly Lazy<ImmutableArray<SpeciesProfile>> Loaded = new(Load);

    /// <summary>All profiles, by code.</summary>
    public static ImmutableArray<SpeciesProfile> All => Loaded.Value;

    /// <summary>The reference species, <c>Caridina multidentata</c>.</summary>
    public static SpeciesProfile CaridinaMultidentata =>
        Find("caridina-multidentata")
        ?? throw new InvalidOperationException("The reference profile is missing.");

    /// <summary>The profile of this code or scientific name, in any case of letters, or none.</summary>
    public static SpeciesProfile? Find(string? name) =>
        All.FirstOrDefault(profile =>
            string.Equals(profile.Code, name, StringComparison.OrdinalIgnoreCase)
            || string.Equals(profile.ScientificName, name, StringComparison.OrdinalIgnoreCase)
        );

    private static ImmutableArray<SpeciesProfile> Load()
    {
        var assembly = typeof(SpeciesProfiles).Assembly;
        return
        [
            .. assembly
                .GetManifestResourceNames()
                .Where(name => name.StartsWith(ResourcePrefix, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name =>
                {
                    using var stream = assembly.GetManifestResourceStream(name)!;
                    using var bytes = new MemoryStream();
                    stream.CopyTo(bytes);
                    var reading = SpeciesProfile.Read(bytes.ToArray());

                    // A profile in our own assembly that cannot be read is a programmer's mistake.
                    return reading.Profile ?? throw new InvalidOperationException($"{name}: {reading.Fault}");
                }),
        ];
    }
}
