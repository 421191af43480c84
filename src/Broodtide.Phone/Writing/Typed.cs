namespace Broodtide.Phone.Writing;

/// <summary>What stands in the fields of a form: texts by the names of its fields, nothing understood yet.</summary>
public sealed class Typed(NodaTime.DateTimeZone zone)
{
    public const string Yes = "yes";
    public const string No = "no";

    private readonly Dictionary<string, string> _texts = new(StringComparer.Ordinal);

    /// <summary>Where the keeper is.</summary>
    public NodaTime.DateTimeZone Zone => zone;

    public string this[string name]
    {
        get => _texts.GetValueOrDefault(name, "");
        set => _texts[name] = value;
    }

    public string Of(params ReadOnlySpan<string> names) => this[Name(names)];

    public bool IsEmpty(string name) => string.IsNullOrWhiteSpace(this[name]);

    public bool IsTicked(string name) => this[name] == Yes;

    public static string Name(params ReadOnlySpan<string> names) => string.Join('.', names!);
}
