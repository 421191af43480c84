using Broodtide.Storage.Households;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.People;

/// <summary>The names of everybody who was ever let in, so that nobody signs with another's.</summary>
internal sealed class PeopleOfTheHouse(HousePeople people) : IPeopleOfTheHouse
{
    public IReadOnlyList<SigningName> Names() =>
        [.. people.All().Select(person => new SigningName(person.Id, person.Name))];
}
