using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Recording;

namespace Broodtide.Phone.Writing;

/// <summary>A number with its unit, as typed.</summary>
public sealed record AmountField(string Name, bool Needed, params Dimension[] Dimensions)
    : Field(Name, Needed)
{
    private const string Unit = "unit";

    public string UnitName => Typed.Name(Name, Unit);

    public override void Prefill(JsonNode told, Typed typed)
    {
        typed[Name] = told["typed"]?.ToString() ?? "";
        typed[UnitName] = told[Unit]?.ToString() ?? "";
    }

    public override string Tell(JsonNode told, Teller teller) => teller.Said(Name, teller.Amount(told));

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Read(typed[Name], typed[UnitName], Name, Dimensions);

    /// <summary>The number as the journal keeps it, or why there is none.</summary>
    public static (JsonNode? Member, Remark? Reason) Read(
        string text,
        string unit,
        string field,
        IReadOnlyList<Dimension> dimensions
    )
    {
        var read = AmountText.Parse(text, field, dimensions, unit.Length > 0 ? unit : null);
        if (!read.Succeeded)
        {
            return No(read.Reason);
        }

        var known = read.Value.KnownUnit();
        return known is null || known.Allows(read.Value.Value)
            ? Member(Node(read.Value))
            : No(
                new Remark(
                    "number-outside",
                    new("field", field),
                    new("typed", text.Trim()),
                    new("lowest", known.Lowest),
                    new("highest", known.Highest)
                )
            );
    }

    private static JsonObject Node(TypedNumber number) =>
        new()
        {
            ["typed"] = number.Typed,
            [Unit] = number.Unit,
            ["value"] = number.Value,
        };
}
