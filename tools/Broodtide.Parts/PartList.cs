using System.Text.Json.Nodes;

namespace Broodtide.Parts;

/// <summary>What a build is made of: a CycloneDX document, put in one order so that the same build gives the same bytes.</summary>
public sealed class PartList
{
    private readonly JsonObject _document;
    private readonly SortedDictionary<string, JsonObject> _parts = new(StringComparer.Ordinal);

    private PartList(JsonObject document) => _document = document;

    /// <summary>The parts, by name and version.</summary>
    public IReadOnlyCollection<JsonObject> Parts => _parts.Values;

    /// <summary>Several documents as one: what is in any of them, but not what only the build needs.</summary>
    /// <param name="documents">CycloneDX documents as JSON, one at least.</param>
    /// <param name="name">Name of the whole.</param>
    /// <param name="version">Its version.</param>
    /// <param name="at">When its source was committed, so that nothing of the hour of the build remains.</param>
    public static PartList Of(IReadOnlyList<string> documents, string name, string version, DateTimeOffset at)
    {
        var read = documents.Select(text => JsonNode.Parse(text)!.AsObject()).ToArray();
        var list = new PartList(read[0]);
        foreach (var part in read.SelectMany(document => document["components"]!.AsArray()))
        {
            if ((string?)part!["scope"] != "excluded")
            {
                list.Add(part.DeepClone().AsObject());
            }
        }

        var metadata = read[0]["metadata"]!.AsObject();
        metadata["timestamp"] = at.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'");
        metadata["component"]!["name"] = name;
        metadata["component"]!["version"] = version;
        metadata["component"]!["bom-ref"] = $"{name}@{version}";
        return list;
    }

    /// <summary>Adds a part; one of the same name and version stays as it is.</summary>
    public void Add(JsonObject part) => _parts.TryAdd($"{part["name"]} {part["version"]}", part);

    /// <summary>Tells the licence of parts that name none themselves.</summary>
    /// <param name="read">Licences by name of the part.</param>
    public void Tell(IReadOnlyDictionary<string, string> read)
    {
        foreach (var part in _parts.Values)
        {
            if (LicencesOf(part).Count == 0 && read.TryGetValue((string?)part["name"] ?? "", out var licence))
            {
                part["licenses"] = Licences(licence);
            }
        }
    }

    private static JsonArray Licences(string id) =>
        new(new JsonObject { ["license"] = new JsonObject { ["id"] = id } });

    /// <summary>Adds the runtime packs that a self-contained build names in its <c>.deps.json</c>.</summary>
    public void AddRuntimes(string deps, string licence)
    {
        const string Mark = "runtimepack.";
        foreach (var library in JsonNode.Parse(deps)!["libraries"]!.AsObject().Select(pair => pair.Key))
        {
            if (library.StartsWith(Mark, StringComparison.Ordinal))
            {
                var parts = library[Mark.Length..].Split('/');
                Add(
                    new()
                    {
                        ["type"] = "framework",
                        ["name"] = parts[0],
                        ["version"] = parts[1],
                        ["licenses"] = Licences(licence),
                    }
                );
            }
        }
    }

    /// <summary>Parts whose licence is not among those allowed, or is not told, each with what it says.</summary>
    public IReadOnlyList<string> Refused(IReadOnlySet<string> allowed) =>
        [
            .. Parts
                .Select(part => (part, licences: LicencesOf(part)))
                .Where(pair => pair.licences.Count == 0 || !pair.licences.All(allowed.Contains))
                .Select(pair =>
                    $"{pair.part["name"]} {pair.part["version"]}: "
                    + (pair.licences.Count == 0 ? "no licence told" : string.Join(", ", pair.licences))
                ),
        ];

    /// <summary>The document.</summary>
    public string ToJson()
    {
        var document = _document.DeepClone().AsObject();
        document.Remove("serialNumber");
        document.Remove("dependencies");
        document["components"] = new JsonArray([.. Parts.Select(part => (JsonNode)part.DeepClone())]);
        return document.ToJsonString(new() { WriteIndented = true }) + "\n";
    }

    /// <summary>The licences for people, one part a row.</summary>
    public string ToMarkdown()
    {
        var rows = Parts.Select(part =>
            $"| {part["name"]} | {part["version"]} | {string.Join(", ", LicencesOf(part))} | {Owner(part)} |\n"
        );
        return "# Licences of what Broodtide is made of\n\n"
            + "Broodtide itself is under the MIT licence (`LICENSE`). It brings along:\n\n"
            + "| part | version | licence | copyright or authors |\n|---|---|---|---|\n"
            + string.Concat(rows);
    }

    private static IReadOnlyList<string> LicencesOf(JsonObject part) =>
        [
            .. (part["licenses"]?.AsArray() ?? [])
                .Select(entry =>
                    (string?)entry!["license"]?["id"]
                    ?? (string?)entry["expression"]
                    ?? (string?)entry["license"]?["name"]
                    ?? (string?)entry["license"]?["url"]
                )
                .OfType<string>(),
        ];

    private static string Owner(JsonObject part)
    {
        var text =
            (string?)part["copyright"]
            ?? string.Join(
                ", ",
                (part["authors"]?.AsArray() ?? []).Select(author => (string?)author!["name"])
            );
        return text.ReplaceLineEndings(" ").Replace("|", "/", StringComparison.Ordinal).Trim();
    }
}
