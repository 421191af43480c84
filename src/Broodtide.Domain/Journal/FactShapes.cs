using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Bodies with their members in the order of the canonical form and with letters as they are: what is written so is
/// nearly always canonical at once.
/// </summary>
internal static class FactShapes
{
    // Nobody reads a body as a part of a page, which is what escaping more letters would be for.
    private static readonly JsonSerializerOptions Canonical = new(FactJson.Default.Options)
    {
        TypeInfoResolver = FactJson.Default.WithAddedModifier(InOrder),
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>How facts of one record are written and read.</summary>
    public static JsonTypeInfo<T> Of<T>()
        where T : Fact => (JsonTypeInfo<T>)Canonical.GetTypeInfo(typeof(T));

    private static void InOrder(JsonTypeInfo shape)
    {
        var place = 0;
        foreach (var member in shape.Properties.OrderBy(member => member.Name, StringComparer.Ordinal))
        {
            member.Order = place++;
        }
    }
}
