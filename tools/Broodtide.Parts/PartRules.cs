using System.Text.Json;
using System.Text.Json.Nodes;

namespace Broodtide.Parts;

/// <summary>Which licences may be handed out, and the parts that no package names. Read from <c>eng/licences.json</c>.</summary>
/// <param name="Allowed">SPDX names of licences.</param>
/// <param name="Runtime">Licence of the runtime that a build brings along.</param>
/// <param name="Read">Licences of packages that hold a text and name none, as somebody read it, by name of the package.</param>
/// <param name="Added">Parts of other kinds, as components of the list.</param>
public sealed record PartRules(
    IReadOnlySet<string> Allowed,
    string Runtime,
    IReadOnlyDictionary<string, string> Read,
    IReadOnlyList<JsonObject> Added
)
{
    /// <summary>Reads them.</summary>
    /// <exception cref="FormatException">Something is missing.</exception>
    public static PartRules From(string text)
    {
        try
        {
            var root = JsonNode.Parse(text)!.AsObject();
            return new(
                root["allowed"]!.AsArray().Select(name => name!.GetValue<string>()).ToHashSet(),
                root["runtime"]!.GetValue<string>(),
                root["read"]!
                    .AsObject()
                    .ToDictionary(pair => pair.Key, pair => pair.Value!.GetValue<string>()),
                [.. root["added"]!.AsArray().Select(part => part!.DeepClone().AsObject())]
            );
        }
        catch (Exception trouble)
            when (trouble is JsonException or NullReferenceException or InvalidOperationException)
        {
            throw new FormatException(
                "The rules of licences need `allowed`, `runtime`, `read` and `added`.",
                trouble
            );
        }
    }
}
