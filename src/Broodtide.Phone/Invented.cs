namespace Broodtide.Phone;

/// <summary>Whether what is shown was made up: then every page says so in its head.</summary>
internal sealed class Invented
{
    public bool IsInvented { get; set; }
}
