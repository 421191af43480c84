using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>One kind of fact: its stored name, its newest version, and how its bodies are written and read.</summary>
public abstract class Kind
{
    private protected Kind(string name, int version, Type type)
    {
        Name = name;
        Version = version;
        Type = type;
    }

    /// <summary>Subject and past participle.</summary>
    public string Name { get; }

    /// <summary>The newest version of its shape, from 1.</summary>
    public int Version { get; }

    /// <summary>The record that holds it.</summary>
    public Type Type { get; }

    /// <summary>The canonical bytes of a body.</summary>
    public abstract byte[] Write(Fact fact);

    internal abstract Fact Read(int version, ReadOnlySpan<byte> body);
}

/// <summary>A kind whose facts are one record.</summary>
/// <typeparam name="T">The record.</typeparam>
/// <param name="name">Subject and past participle.</param>
/// <param name="lifts">Step n turns a body of version n + 1 into one of version n + 2; as many as older versions.</param>
internal sealed class Kind<T>(string name, params Func<JsonElement, byte[]>[] lifts)
    : Kind(name, lifts.Length + 1, typeof(T))
    where T : Fact
{
    private JsonTypeInfo<T>? _shape;

    // How its newest shape is written and read. Asked for when first needed: to make all kinds ready at the start costs
    // more than most programs then do.
    private JsonTypeInfo<T> Shape => _shape ??= FactShapes.Of<T>();

    public override byte[] Write(Fact fact) =>
        CanonicalJson.From(JsonSerializer.SerializeToUtf8Bytes((T)fact, Shape));

    internal override Fact Read(int version, ReadOnlySpan<byte> body)
    {
        try
        {
            for (var older = version; older < Version; older++)
            {
                var reader = new Utf8JsonReader(body);
                using var document = JsonDocument.ParseValue(ref reader);
                body = lifts[older - 1](document.RootElement);
            }

            var fact = JsonSerializer.Deserialize(body, Shape);
            return fact is null ? Unreadable("")
                : fact.Impossible() is { } reason ? new UnreadableFact(Name, reason.ToString())
                : fact;
        }
        catch (JsonException wrong)
        {
            return Unreadable(wrong.Path);
        }
        catch (Exception wrong)
            when (wrong is InvalidOperationException or FormatException or KeyNotFoundException)
        {
            return Unreadable(null);
        }
    }

    private UnreadableFact Unreadable(string? path) =>
        new(Name, new Remark("not-of-this-shape", new Argument("at", path ?? "")).ToString());
}
