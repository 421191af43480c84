namespace Broodtide.Domain;
