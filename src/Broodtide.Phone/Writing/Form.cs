using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Writing;

/// <summary>One kind of entry as a keeper writes it. Several forms may write one kind of fact.</summary>
/// <param name="Code">Its name in addresses and words.</param>
/// <param name="Kind">The stored name of the fact it writes.</param>
/// <param name="Mark">Its mark.</param>
/// <param name="Fields">Its members, in the order of asking.</param>
public sealed record Form(string Code, string Kind, TideEntryMark Mark, params Field[] Fields)
{
    /// <summary>Cautions that stand before its key.</summary>
    public IReadOnlyList<string> Cares { get; init; } = [];

    /// <summary>Members of which one at least is needed.</summary>
    public IReadOnlyList<string> OneOf { get; init; } = [];

    /// <summary>Members that the title of the entry names in the journal.</summary>
    public IReadOnlyList<string> InTitle { get; init; } =
    [.. Fields.Where(field => field is { IsShown: true, Needed: true }).Take(1).Select(field => field.Name)];

    /// <summary>Whether a body of its kind is told by this form and not by another.</summary>
    public Func<JsonObject, bool> Fits { get; init; } = _ => true;

    /// <summary>The fields that a keeper sees.</summary>
    public IEnumerable<Field> Shown => Fields.Where(it => it.IsShown);

    /// <summary>The texts of a body.</summary>
    public void Prefill(JsonObject body, Typed typed)
    {
        foreach (var field in Fields)
        {
            if (body[field.Name] is { } told)
            {
                field.Prefill(told, typed);
            }
        }
    }

    /// <summary>
    /// Makes the fact of what was typed. Members of an earlier body that the form does not ask for stay as they are.
    /// </summary>
    /// <returns>The fact, or why there is none, by field.</returns>
    public (Fact? Fact, IReadOnlyDictionary<string, Remark> Wrong) Make(
        Typed typed,
        Making making,
        JsonObject? earlier
    )
    {
        var body = earlier?.DeepClone().AsObject() ?? [];
        var wrong = new Dictionary<string, Remark>(StringComparer.Ordinal);
        foreach (var field in Fields)
        {
            if (field.Put(body, typed, making) is { } reason)
            {
                wrong[field.Name] = reason;
            }
        }

        if (
            OneOf.Count > 0
            && wrong.Count == 0
            && !OneOf.Any(name => body[name] is { } told && told.ToString() != "false")
        )
        {
            wrong[OneOf[0]] = new Remark("field-needed", new Argument("field", OneOf[0]));
        }

        if (wrong.Count > 0)
        {
            return (null, wrong);
        }

        var kind = Kinds.Find(Kind)!;
        var fact = Kinds.Read(Kind, kind.Version, System.Text.Encoding.UTF8.GetBytes(body.ToJsonString()));
        if (fact is UnreadableFact unreadable)
        {
            wrong[""] = new Remark("fact-impossible", new Argument("reason", unreadable.Reason));
            return (null, wrong);
        }

        return (fact, wrong);
    }
}
