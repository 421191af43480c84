using System.Text.Json.Nodes;
using Broodtide.Units;

namespace Broodtide.Phone.Writing;

/// <summary>What can be chosen by name.</summary>
public enum Thing
{
    Vessel,
    Animal,
    Female,
    Brood,
    Run,
    Cohort,
    Collection,
    Instrument,
}

/// <summary>A thing that was written down before.</summary>
public sealed record ThingField(string Name, Thing Thing, bool Needed = false) : Field(Name, Needed)
{
    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(Name, teller.Names.Of(Thing, told.ToString()));

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Guid.TryParse(typed[Name], out var id)
            ? Member(id.ToString())
            : No(new Remark("field-needed", new Argument("field", Name)));
}

/// <summary>Any number of things that were written down before.</summary>
public sealed record ThingsField(string Name, Thing Thing, bool Needed = false) : Field(Name, Needed)
{
    public override void Prefill(JsonNode told, Typed typed)
    {
        foreach (var id in told.AsArray())
        {
            typed[Typed.Name(Name, id!.ToString())] = Typed.Yes;
        }

        typed[Name] = string.Join(' ', told.AsArray().Select(id => id!.ToString()));
    }

    public override string Tell(JsonNode told, Teller teller) =>
        teller.Said(
            Name,
            string.Join(", ", told.AsArray().Select(id => teller.Names.Of(Thing, id!.ToString())))
        );

    protected override (JsonNode?, Remark?) Understand(JsonObject body, Typed typed, Making making) =>
        Member(
            new JsonArray([
                .. typed[Name]
                    .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                    .Select(id => (JsonNode?)JsonValue.Create(id)),
            ])
        );
}
