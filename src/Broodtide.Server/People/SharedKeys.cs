using System.Xml.Linq;
using Broodtide.Storage.Postgres;
using Microsoft.AspNetCore.DataProtection.Repositories;

namespace Broodtide.Server.People;

/// <summary>The framework's keys in the house's database: what one server vouches for, the other one knows.</summary>
internal sealed class SharedKeys(PostgresKeys keys) : IXmlRepository
{
    public IReadOnlyCollection<XElement> GetAllElements() => [.. keys.All().Select(XElement.Parse)];

    public void StoreElement(XElement element, string friendlyName) =>
        keys.Keep(friendlyName, element.ToString(SaveOptions.DisableFormatting));
}
