using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Dossiers;

/// <summary>What the descriptor of a foreign package says, as far as it is needed.</summary>
internal sealed record PackageDescriptor(
    string Title,
    string? By,
    string? Licence,
    string Engine,
    Instant ToldFor,
    DateTimeZone Zone,
    IReadOnlyList<RunId> Runs,
    IReadOnlyList<(string Path, string Hash)> Resources
)
{
    private const int LongestText = 500;

    public static Parsed<PackageDescriptor> Read(JsonElement json)
    {
        if (
            json.ValueKind is not JsonValueKind.Object
            || !json.TryGetProperty(DossierPackage.OwnMember, out var own)
            || own.ValueKind is not JsonValueKind.Object
            || !own.TryGetProperty("dossier", out var version)
            || !version.TryGetInt32(out var number)
            || number < 1
        )
        {
            return Parsed<PackageDescriptor>.No("package-not-a-dossier");
        }

        if (number > DossierPackage.Version)
        {
            return Parsed<PackageDescriptor>.No(
                "package-newer",
                new("version", number),
                new("known", DossierPackage.Version)
            );
        }

        var resources = ResourcesOf(json);
        if (!resources.Succeeded)
        {
            return Parsed<PackageDescriptor>.No(resources.Reason);
        }

        var runs = own.GetProperty("runs")
            .EnumerateArray()
            .Select(run => new RunId(run.GetGuid()))
            .Distinct()
            .ToList();
        var told = InstantPattern.ExtendedIso.Parse(own.GetProperty("toldFor").GetString()!);
        var zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(own.GetProperty("zone").GetString()!);
        return !told.Success ? Wrong("toldFor")
            : zone is null ? Wrong("zone")
            : runs.Count is 0 or > PackageLimits.MostRuns ? Wrong("runs")
            : Parsed<PackageDescriptor>.Of(
                new(
                    Text(json, "title") ?? "",
                    FirstOf(json, "contributors", "title"),
                    FirstOf(json, "licenses", "name"),
                    Text(own, "engine") ?? "",
                    told.Value,
                    zone,
                    runs,
                    resources.Value
                )
            );
    }

    private static Parsed<IReadOnlyList<(string Path, string Hash)>> ResourcesOf(JsonElement json)
    {
        var found = new List<(string Path, string Hash)>();
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var resource in json.GetProperty("resources").EnumerateArray())
        {
            if (Text(resource, "path") is not { } path || Text(resource, "hash") is not { } hash)
            {
                return Parsed<IReadOnlyList<(string, string)>>.No(
                    "package-resource-without-hash",
                    new Argument("file", Text(resource, "path") ?? Text(resource, "name") ?? "?")
                );
            }

            if (PackagePath.WrongWith(path) is { } unsafePath)
            {
                return Parsed<IReadOnlyList<(string, string)>>.No(unsafePath);
            }

            if (!seen.Add(path) || !seen.Add($"name:{Text(resource, "name")}"))
            {
                return Parsed<IReadOnlyList<(string, string)>>.No(
                    "package-file-twice",
                    new Argument("file", path)
                );
            }

            found.Add((path, hash));
        }

        return Parsed<IReadOnlyList<(string, string)>>.Of(found);
    }

    private static Parsed<PackageDescriptor> Wrong(string member) =>
        Parsed<PackageDescriptor>.No("package-member-wrong", new Argument("member", member));

    private static string? FirstOf(JsonElement json, string list, string member) =>
        json.TryGetProperty(list, out var items)
        && items.ValueKind is JsonValueKind.Array
        && items.GetArrayLength() > 0
        && items[0].ValueKind is JsonValueKind.Object
            ? Text(items[0], member)
            : null;

    private static string? Text(JsonElement json, string member) =>
        json.ValueKind is JsonValueKind.Object
        && json.TryGetProperty(member, out var value)
        && value.ValueKind is JsonValueKind.String
        && value.GetString() is { Length: <= LongestText } text
            ? text
            : null;
}
