using System.Text.Json.Nodes;
using Broodtide.Units;

namespace Broodtide.Phone.Writing;

/// <summary>
/// One member of a fact's body, as a form asks for it. A field fills its texts from a body, and writes what it
/// understood into one; what it does not understand stays in the field, with the reason.
/// </summary>
/// <param name="Name">The member, as the body names it.</param>
/// <param name="Needed">Whether the entry means nothing without it.</param>
public abstract record Field(string Name, bool Needed)
{
    /// <summary>Whether the keeper is asked; some members are made by the form itself.</summary>
    public virtual bool IsShown => true;

    /// <summary>The texts that would have been typed for what the body holds.</summary>
    public virtual void Prefill(JsonNode told, Typed typed) => typed[Name] = told.ToString();

    /// <summary>Writes the member into the body, or takes it out of it; or says why it cannot.</summary>
    public Remark? Put(JsonObject body, Typed typed, Making making)
    {
        if (IsShown && IsLeftOut(typed))
        {
            body.Remove(Name);
            return Needed ? new Remark("field-needed", new Argument("field", Name)) : null;
        }

        var (member, reason) = Understand(body, typed, making);
        if (reason is null)
        {
            body[Name] = member;
        }

        return reason;
    }

    /// <summary>What the journal says of the member: none for what goes without saying.</summary>
    public virtual string? Tell(JsonNode told, Teller teller) => teller.Said(Name, told.ToString());

    protected virtual bool IsLeftOut(Typed typed) => typed.IsEmpty(Name);

    protected abstract (JsonNode? Member, Remark? Reason) Understand(
        JsonObject body,
        Typed typed,
        Making making
    );

    protected static (JsonNode?, Remark?) Member(JsonNode? member) => (member, null);

    protected static (JsonNode?, Remark?) No(Remark reason) => (null, reason);
}

/// <summary>What a form needs of its surroundings to make a fact.</summary>
/// <param name="NewId">Makes UUIDs of version 7.</param>
/// <param name="Zone">Where the keeper is.</param>
public sealed record Making(Func<Guid> NewId, NodaTime.DateTimeZone Zone);
