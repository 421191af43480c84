namespace Broodtide.Phone;

/// <summary>Whether what is shown was made up: then every page says so in its head.</summary>
internal sealed class Invented
{
    /// <summary>It is not what it was.</summary>
    public event Action? Changed;

    public bool IsInvented
    {
        get;
        set
        {
            if (field != value)
            {
                field = value;
                Changed?.Invoke();
            }
        }
    }
}
