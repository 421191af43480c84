using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;

namespace Broodtide.Workbench.Species;

/// <summary>A species with a profile: what a list of them shows, without reading the whole file.</summary>
/// <param name="Code">The code, its scientific name in small letters joined by hyphens.</param>
/// <param name="ScientificName">The scientific name.</param>
/// <param name="Zoeae">How many zoeal stages its profile counts.</param>
public sealed record KnownSpecies(string Code, string ScientificName, int Zoeae);

/// <summary>The profiles that come with Broodtide. Each file is read when it is first asked for.</summary>
public static class SpeciesProfiles
{
    /// <summary>The beginning of the name of an embedded profile file.</summary>
    internal const string ResourcePrefix = "species/";

    private const string IndexResource = "species-index";
    private const char ReferenceMark = '*';

    private static readonly Lazy<(ImmutableArray<KnownSpecies> Known, string Reference)> Index = new(
        ReadIndex
    );
    private static readonly ConcurrentDictionary<string, SpeciesProfile> Read = new(StringComparer.Ordinal);

    /// <summary>The species that have a profile, by code.</summary>
    public static ImmutableArray<KnownSpecies> Known => Index.Value.Known;

    /// <summary>All profiles, by code. Reads every file.</summary>
    public static ImmutableArray<SpeciesProfile> All => [.. Known.Select(species => Of(species.Code))];

    /// <summary>The reference species: whose numbers stand where no species was named.</summary>
    public static SpeciesProfile Reference => Of(Index.Value.Reference);

    /// <summary>The same by name alone: its file is not read.</summary>
    public static KnownSpecies ReferenceSpecies =>
        Known.First(species => string.Equals(species.Code, Index.Value.Reference, StringComparison.Ordinal));

    /// <summary>The profile of this code or scientific name, in any case of letters, or none.</summary>
    public static SpeciesProfile? Find(string? name) =>
        Known.FirstOrDefault(species =>
            string.Equals(species.Code, name, StringComparison.OrdinalIgnoreCase)
            || string.Equals(species.ScientificName, name, StringComparison.OrdinalIgnoreCase)
        )
            is { } found
            ? Of(found.Code)
            : null;

    private static SpeciesProfile Of(string code) => Read.GetOrAdd(code, Load);

    private static SpeciesProfile Load(string code)
    {
        using var stream = Resource($"{ResourcePrefix}{code}.json");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        var reading = SpeciesProfile.Read(bytes.ToArray());

        // A profile in our own assembly that cannot be read is a programmer's mistake.
        return reading.Profile ?? throw new InvalidOperationException($"{code}: {reading.Fault}");
    }

    private static (ImmutableArray<KnownSpecies> Known, string Reference) ReadIndex()
    {
        using var reader = new StreamReader(Resource(IndexResource));
        var known = ImmutableArray.CreateBuilder<KnownSpecies>();
        var reference = "";
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#') || line.Split(',') is not [var code, var name, var zoeae])
            {
                continue;
            }

            var number = int.Parse(zoeae.TrimEnd(ReferenceMark, ' '), CultureInfo.InvariantCulture);
            known.Add(new(code.Trim(), name.Trim(), number));
            reference = zoeae.EndsWith(ReferenceMark) ? known[^1].Code : reference;
        }

        known.Sort((left, right) => string.CompareOrdinal(left.Code, right.Code));
        return (known.ToImmutable(), reference);
    }

    private static Stream Resource(string name) =>
        typeof(SpeciesProfiles).Assembly.GetManifestResourceStream(name)
        ?? throw new InvalidOperationException($"{name} is missing.");
}
